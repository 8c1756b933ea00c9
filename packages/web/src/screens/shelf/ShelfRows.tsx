import { useEffect, useState } from 'react';
import type { ShelfEntry } from '../../storage/keeper.ts';
import { ShelfRow } from './ShelfRow.tsx';

/** So many lines are made in one go: more than any window shows, and less than a task that is felt. */
const AT_ONCE = 40;

/** The lines of the shelf. Hundreds that come at once, as when a search is emptied, come in pieces, one a frame. */
export function ShelfRows({ rows }: { rows: readonly ShelfEntry[] }) {
  const [made, setMade] = useState(AT_ONCE);
  const wanted = Math.max(AT_ONCE, rows.length);
  // What a search leaves out must come back in pieces as well.
  if (made > wanted) setMade(wanted);
  useEffect(() => {
    if (made >= rows.length) return;
    const frame = requestAnimationFrame(() => setMade(made + AT_ONCE));
    return () => cancelAnimationFrame(frame);
  }, [made, rows.length]);
  return (
    <ul>
      {rows.slice(0, made).map((entry) => (
        <ShelfRow key={entry.id} entry={entry} />
      ))}
    </ul>
  );
}
