import { useRef } from 'react';

/** The ways many pictures come in at once, as one sentence: a folder, files, or a drop (`useManyDropped`). */
export function ManyComings({
  folder,
  files,
  labels,
  onTake,
}: {
  /** Words that open a folder, and words that open files. */
  folder: string;
  files: string;
  /** Names of the two inputs. */
  labels: { readonly folder: string; readonly files: string };
  onTake: (chosen: File[]) => void;
}) {
  const filesInput = useRef<HTMLInputElement>(null);
  const folderInput = useRef<HTMLInputElement>(null);
  const shared = {
    type: 'file',
    className: 'unseen',
    tabIndex: -1,
    onChange: ({ currentTarget: input }: React.ChangeEvent<HTMLInputElement>): void => {
      const chosen = [...(input.files ?? [])];
      input.value = '';
      onTake(chosen);
    },
  };
  return (
    <>
      <button type="button" className="clause" onClick={() => folderInput.current?.click()}>
        {folder}
      </button>
      , or{' '}
      <button type="button" className="clause" data-choose-works onClick={() => filesInput.current?.click()}>
        {files}
      </button>
      , or drop them anywhere on the page
      <input ref={filesInput} {...shared} aria-label={labels.files} multiple />
      <input ref={folderInput} {...shared} aria-label={labels.folder} {...{ webkitdirectory: '' }} />
    </>
  );
}
