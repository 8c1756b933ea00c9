import { useRef } from 'react';
import { chooseFiles, pasteByButton } from '../app/incoming.ts';

/** The ways a picture comes in, as one sentence. */
export function Comings({ lead }: { lead: string }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className="clause" onClick={() => input.current?.click()}>
        {lead}
      </button>
      <input
        ref={input}
        type="file"
        className="unseen"
        aria-label="Pictures to open"
        tabIndex={-1}
        multiple
        accept="image/*,.tif,.tiff"
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = '';
          void chooseFiles(files);
        }}
      />
      ,{' '}
      <button type="button" className="clause" onClick={() => void pasteByButton()}>
        paste one
      </button>
      , or drop it anywhere on the page
    </>
  );
}
