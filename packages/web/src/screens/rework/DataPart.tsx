import { type Step, stepKind } from '@halflight/engine';
import type { Work } from '../../document/work.ts';
import { Patch } from '../../parts/Swatches.tsx';
import { useSession } from '../../state/session.ts';
import { askFor } from './ask.ts';
import { plannedFamilies } from './needs.ts';
import { familyWords } from './words.ts';

/** What a step works with besides numbers: families, a colour, an example. */
export function DataPart({
  work,
  step,
  onChange,
}: {
  work: Work;
  step: Step;
  onChange: (change: Partial<Step>) => void;
}) {
  const seen = useSession((session) => session.seen);
  const { needs } = stepKind(step.kind);
  const put = (data: Step['data']): void => onChange({ data: { ...step.data, ...data } });
  const again = (words: string) => (
    <button type="button" className="clause" onClick={() => askFor(step.kind, put)}>
      {words}
    </button>
  );
  const { families = [], colour, gains } = step.data ?? {};
  if (needs.includes('families')) {
    const plan = plannedFamilies({ intent: work.intent, seen });
    const differs =
      step.kind !== 'accent' && plan.length > 0 && JSON.stringify(plan) !== JSON.stringify(families);
    return (
      <p>
        {step.kind === 'accent' ? 'It lifts' : 'It keeps to'} {familyWords(families)};{' '}
        {differs && (
          <>
            <button type="button" className="clause" onClick={() => put({ families: plan })}>
              take the plan as it is now
            </button>{' '}
            or{' '}
          </>
        )}
        {again('take a hue from the picture')}.
      </p>
    );
  }
  if (needs.includes('colour') && colour)
    return (
      <p className="with-patch">
        <Patch rgb={colour} />
        <span>Its light has this colour; {again('take another from the picture')}.</span>
      </p>
    );
  if (needs.includes('gains') && gains)
    return (
      <p>
        It multiplies red by {gains[0].toFixed(2)}, green by {gains[1].toFixed(2)}, blue by{' '}
        {gains[2].toFixed(2)}; {again('take it from two places of the picture')}.
      </p>
    );
  if (needs.includes('to')) return <p>It follows an example; {again('choose another')}.</p>;
  return null;
}
