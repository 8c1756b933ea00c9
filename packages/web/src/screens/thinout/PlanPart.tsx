import { countWord, type FlattenStage, STAGES, type StageName, sentence } from '@halflight/engine';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { Ways } from '../../parts/Ways.tsx';
import { useThinout } from '../../state/thinout/store.ts';
import { stopWritingLayers, thinned } from '../../state/thinout/writing.ts';
import { useWrite } from '../../state/write.ts';
import { lostWords } from './words.ts';

/** From keeping every layer to one layer: what is left, what is lost, and the new file. */
export function PlanPart({ name, depth }: { name: string; depth: number }) {
  const { running, done } = useWrite();
  const { history, plan, stage } = useThinout();
  const stages = plan ? steps(plan) : [];
  const chosen = stages.find(({ names }) => names.includes(stage));
  const file = `${name.replace(/\.[A-Za-z0-9]{1,5}$/, '')} thinned.ora`;
  return (
    <NoteFrame
      name="thin plan"
      sentence={
        plan && chosen
          ? `${sentence(countWord(plan[0].layers))} ${plan[0].layers === 1 ? 'layer' : 'layers'} can be written as ${countWord(chosen.stage.layers)}.`
          : 'How far it can be thinned out is being found.'
      }
    >
      {plan && chosen && (
        <>
          <fieldset className="plan-stages">
            <legend>How far is it thinned out?</legend>
            {stages.map(({ names, title, stage: it }) => (
              <label key={it.name}>
                <input
                  type="radio"
                  name="stage"
                  checked={names.includes(stage)}
                  onChange={() => useThinout.setState({ stage: it.name })}
                />
                <span>
                  {title}
                  {it.name !== 'one' && `: ${countWord(it.layers)} ${it.layers === 1 ? 'layer' : 'layers'}`}
                  <span className="caption quiet">
                    {it.name === 'all' ? 'Nothing is lost.' : lostWords(it, depth)}
                  </span>
                </span>
              </label>
            ))}
          </fieldset>
          <p className="quiet">
            A new file is written; the one that was opened stays as it is. It is read back and put together
            again before it counts.
          </p>
        </>
      )}
      {running ? (
        <Waiting what="Writing the layered file" progress={running} onStop={stopWritingLayers} />
      ) : (
        chosen && (
          <p className="answers">
            <Ways
              thing={thinned(chosen.stage, file)}
              of={JSON.stringify([name, history.present, chosen.stage.name])}
              what="the layered file"
            />
          </p>
        )
      )}
      {done && !running && (
        <p className="quiet" data-done>
          {done}
        </p>
      )}
    </NoteFrame>
  );
}

/** Stages that come to the same are one line. */
interface Step {
  readonly names: readonly StageName[];
  readonly title: string;
  readonly stage: FlattenStage;
}

function steps(plan: readonly FlattenStage[]): Step[] {
  const out: Step[] = [];
  for (const stage of plan) {
    const last = out.at(-1);
    const title = STAGES[stage.name];
    if (last && comesTo(last.stage) === comesTo(stage)) {
      const both = `${last.title}, ${title[0].toLowerCase()}${title.slice(1)}`;
      out[out.length - 1] = { ...last, names: [...last.names, stage.name], title: both };
    } else out.push({ names: [stage.name], title, stage });
  }
  return out;
}

function comesTo({ layers, lost: { options, effects } }: FlattenStage): string {
  return JSON.stringify([layers, options, effects]);
}
