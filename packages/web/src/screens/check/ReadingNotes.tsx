import { Drawing } from '../../parts/Drawing.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { ReadingDetails } from '../../parts/ReadingDetails.tsx';
import type { SeenReading } from '../../picture/desk.ts';

/** A reading with nothing to find. */
export function FineNote({ reading }: { reading: SeenReading }) {
  return (
    <NoteFrame name={`reading ${reading.id}`} sentence={reading.fine ?? reading.title}>
      <Drawing drawing={reading.drawing} reading={reading.id} />
      <ReadingDetails reading={reading} />
    </NoteFrame>
  );
}

/** A reading that the picture gives too little for: it says why, and claims nothing. */
export function UntoldNote({ reading }: { reading: SeenReading }) {
  return (
    <NoteFrame name={`reading ${reading.id}`} sentence={`${reading.title}: ${reading.evidence.reason}`}>
      <ReadingDetails reading={reading} />
    </NoteFrame>
  );
}
