import '../style/intent.css';
import type { ReactNode } from 'react';
import { Troubles } from './Troubles.tsx';

/** The upper part of the margin of a screen that works on the open picture: its title, what went wrong, its notes. */
export function NotesPart({
  title,
  label = title,
  children,
}: {
  title: string;
  /** Its name for those who can't see the margin; the title when none is given. */
  label?: string;
  children: ReactNode;
}) {
  return (
    <section className="notes-part" aria-label={label}>
      <Troubles at={['opening', 'keeping', 'reading']} />
      <h2 className="part-title" data-heading tabIndex={-1}>
        {title}
      </h2>
      {children}
    </section>
  );
}
