import { useRef } from 'react';
import { takeDemoClass, takeIntoClass, useClass } from '../../state/class.ts';

/** The ways works come into the class, as one sentence. */
export function ClassComings({ lead }: { lead: string }) {
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const take = (input: HTMLInputElement): void => {
    const chosen = [...(input.files ?? [])];
    input.value = '';
    void takeIntoClass(chosen);
  };
  return (
    <>
      <button type="button" className="clause" onClick={() => folder.current?.click()}>
        {lead} a folder
      </button>
      , or{' '}
      <button type="button" className="clause" data-choose-works onClick={() => files.current?.click()}>
        many files
      </button>
      , or drop them anywhere on the page
      <input
        ref={files}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label="Works of the class"
        multiple
        onChange={(event) => take(event.currentTarget)}
      />
      <input
        ref={folder}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label="Folder with the works of the class"
        {...{ webkitdirectory: '' }}
        onChange={(event) => take(event.currentTarget)}
      />
    </>
  );
}

/** The class that was painted for a first try. */
export function ClassDemoOffer() {
  const { demo, takingIn } = useClass();
  if (demo.length === 0) return null;
  return (
    <p>
      Or{' '}
      <button
        type="button"
        className="clause"
        disabled={takingIn !== null}
        onClick={() => void takeDemoClass()}
      >
        take the class of {demo.length === 12 ? 'twelve' : demo.length}
      </button>{' '}
      that was painted for a first try: invented works by invented people.
    </p>
  );
}
