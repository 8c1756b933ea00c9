import { useRef } from 'react';
import { readFinished, takeBaseline } from '../../state/baseline-works.ts';

/** The ways finished works come in, as one sentence. */
export function FinishedComings({ lead }: { lead: string }) {
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const take = (input: HTMLInputElement): void => {
    const chosen = [...(input.files ?? [])];
    input.value = '';
    void readFinished(chosen);
  };
  return (
    <>
      <button type="button" className="clause" onClick={() => folder.current?.click()}>
        {lead} their folder
      </button>
      , or{' '}
      <button type="button" className="clause" onClick={() => files.current?.click()}>
        their files
      </button>
      , or drop them anywhere on the page
      <input
        ref={files}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label="Finished works"
        multiple
        onChange={(event) => take(event.currentTarget)}
      />
      <input
        ref={folder}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label="Folder of finished works"
        {...{ webkitdirectory: '' }}
        onChange={(event) => take(event.currentTarget)}
      />
    </>
  );
}

/** Ranges that were saved before, here or by the command line. */
export function SavedRanges() {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className="clause" onClick={() => input.current?.click()}>
        Take ranges from a file
      </button>{' '}
      that was saved before
      <input
        ref={input}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label="File of ranges"
        accept=".json,application/json"
        onChange={(event) => {
          const [file] = event.currentTarget.files ?? [];
          event.currentTarget.value = '';
          if (file) void takeBaseline(file);
        }}
      />
    </>
  );
}
