import type { ReactNode } from 'react';
import { useId } from 'react';
import { set, useSession } from '../state/session.ts';

/** One note in the margin: a sentence that opens. Only one note is open at a time. */
export function NoteFrame({
  name,
  sentence,
  aside,
  children,
}: {
  name: string;
  sentence: string;
  /** A few quiet words below the sentence, also while the note is closed. */
  aside?: ReactNode;
  children: ReactNode;
}) {
  const body = useId();
  const open = useSession((session) => session.openNote === name);
  const lit = useSession((session) => session.pointedNote === name);
  return (
    <li
      className="note"
      data-note={name}
      data-open={open || undefined}
      data-lit={lit || undefined}
      onPointerEnter={(event) => event.pointerType === 'mouse' && set({ pointedNote: name })}
      onPointerLeave={() => lit && set({ pointedNote: null })}
    >
      <h3>
        <button
          type="button"
          data-anchor={name}
          aria-expanded={open}
          aria-controls={body}
          onClick={() => set({ openNote: open ? null : name })}
          onFocus={() => set({ pointedNote: name })}
          onBlur={() => set({ pointedNote: null })}
        >
          {sentence}
        </button>
      </h3>
      {aside && <p className="caption quiet">{aside}</p>}
      <div id={body} className="note-body" hidden={!open}>
        {open && children}
      </div>
    </li>
  );
}
