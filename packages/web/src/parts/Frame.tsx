import type { ReactNode } from 'react';
import { FileInput } from './FileInput.tsx';
import { Sheet } from './Sheet.tsx';

/** The page: the wall with the picture, and the margin with the notes (beside it, or below on an upright tablet). */
export function Frame({ wall, margin, over }: { wall: ReactNode; margin: ReactNode; over?: ReactNode }) {
  return (
    <div className="frame">
      <main className="wall">
        {wall}
        <FileInput />
      </main>
      <Sheet>{margin}</Sheet>
      {over}
    </div>
  );
}
