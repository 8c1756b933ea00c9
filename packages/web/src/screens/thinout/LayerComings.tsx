import { useRef } from 'react';

/** A file input that a word in a sentence opens. */
export function useChooser(
  label: string,
  accept: string,
  multiple: boolean,
  onTake: (files: File[]) => void,
): { readonly input: React.ReactNode; readonly open: () => void } {
  const ref = useRef<HTMLInputElement>(null);
  return {
    input: (
      <input
        ref={ref}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label={label}
        accept={accept}
        multiple={multiple}
        onChange={({ currentTarget: input }) => {
          const files = [...(input.files ?? [])];
          input.value = '';
          if (files.length > 0) onTake(files);
        }}
      />
    ),
    open: () => ref.current?.click(),
  };
}

/** The ways layers come in, as one sentence. */
export function LayerComings({
  lead,
  flat,
  onTake,
}: {
  lead: string;
  /** Whether a picture hangs on the wall that is one layer: it can be held against another. */
  flat: boolean;
  onTake: (files: File[]) => void;
}) {
  const layers = useChooser('Layered file, or layers as PNGs', '.ora,.png,image/png', true, onTake);
  const without = useChooser('The picture without one layer', 'image/*,.tif,.tiff', false, onTake);
  return (
    <>
      <button type="button" className="clause" data-choose-works onClick={layers.open}>
        {lead}
      </button>{' '}
      (OpenRaster, .ora), or PNGs of one size together, lowest first
      {flat && (
        <>
          ; or{' '}
          <button type="button" className="clause" onClick={without.open}>
            this picture without one layer
          </button>
          , to see what that layer is worth
        </>
      )}
      . They can be dropped anywhere on the page
      {layers.input}
      {without.input}
    </>
  );
}
