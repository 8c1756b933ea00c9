import { sentence } from '@halflight/engine';
import { go } from '../../app/route.ts';
import { intentClause } from '../../parts/clauses.ts';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { performOnClass } from '../../state/class.ts';
import type { ClassDocument } from '../../state/class-document.ts';
import { KeptText } from './KeptText.tsx';

/** What was asked for, in words and as an intent that every work is read against. */
export function AssignmentNote({ now }: { now: ClassDocument }) {
  const about = (change: Partial<ClassDocument>, words: string): void =>
    performOnClass({ kind: 'about', words, about: change });
  return (
    <NoteFrame
      name="assignment"
      sentence={now.assignment ? `Asked for: ${now.assignment}` : 'What was asked for is not written down.'}
      aside={sentence(intentClause(now))}
    >
      <KeptText
        label="Name of the class"
        value={now.title}
        onKeep={(title) => title && about({ title }, 'the name of the class')}
      />
      <KeptText
        label="What was asked for, one sentence"
        value={now.assignment}
        rows={2}
        placeholder="One light, two hue families, one place that matters."
        onKeep={(assignment) => about({ assignment }, 'what was asked for')}
      />
      <KeptText label="Who speaks on the pages" value={now.by} onKeep={(by) => about({ by }, 'who speaks')} />
      <p>
        <button type="button" className="clause" onClick={() => go({ screen: 'class', of: 'intent' })}>
          Decide its mood, light and hues
        </button>
        : every work is then read against them.
      </p>
    </NoteFrame>
  );
}
