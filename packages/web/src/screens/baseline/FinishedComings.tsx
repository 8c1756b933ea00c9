import { useRef } from 'react';
import { ManyComings } from '../../parts/many/ManyComings.tsx';
import { readFinished, takeBaseline } from '../../state/baseline-works.ts';

/** The ways finished works come in, as one sentence. */
export function FinishedComings({ lead }: { lead: string }) {
  return (
    <ManyComings
      folder={`${lead} their folder`}
      files="their files"
      labels={{ folder: 'Folder of finished works', files: 'Finished works' }}
      onTake={(chosen) => void readFinished(chosen)}
    />
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
