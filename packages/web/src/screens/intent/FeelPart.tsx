import { useState } from 'react';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { decide } from '../../state/decide.ts';

/** One sentence: what one should feel. It is not measured; it stands beside the picture as a reminder. */
export function FeelPart({ feel }: { feel: string | undefined }) {
  return (
    <NoteFrame
      name="intent feel"
      sentence={feel ? `Who sees it should feel ${feel}` : 'What one should feel is left open.'}
    >
      <Sentence key={feel} feel={feel ?? ''} />
      <p className="caption quiet">It is not measured; it reminds you.</p>
    </NoteFrame>
  );
}

function Sentence({ feel }: { feel: string }) {
  const [text, setText] = useState(feel);
  const keep = (): void => decide('feel', text.trim() || undefined);
  return (
    <label>
      Who sees it should feel
      <textarea
        rows={3}
        value={text}
        placeholder="that the last boat has left without them"
        onChange={(event) => setText(event.target.value)}
        onBlur={keep}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || event.shiftKey) return;
          event.preventDefault();
          keep();
        }}
      />
    </label>
  );
}
