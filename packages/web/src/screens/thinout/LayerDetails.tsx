import { differenceWords } from '../../document/layers.ts';
import { number } from '../../parts/ReadingDetails.tsx';
import { decide } from '../../state/thinout/deciding.ts';
import { lookMerged } from '../../state/thinout/looking.ts';
import { useThinout } from '../../state/thinout/store.ts';
import type { ListedLayer, SeenLayer } from '../../workers/layers/desk.ts';
import { CELL, quoted, runsOf, worthSentence } from './words.ts';

/** What one layer is worth and why, and what can be done about it. */
export function LayerDetails({
  layer: { path, visible, group },
  one,
  gone,
  onSweep,
  onOptions,
}: {
  layer: ListedLayer;
  one: SeenLayer;
  gone: boolean;
  onSweep: () => void;
  onOptions: (set: readonly string[]) => void;
}) {
  const { seen, merge, merging: pending, history } = useThinout();
  const set = seen?.options.find((it) => it.includes(path));
  const run = seen ? runsOf(seen).find((it) => it.includes(path)) : undefined;
  const dropped = history.present.dropped.includes(path);
  const settled = history.present.settled.find((it) => it.path === path);
  const merging = run !== undefined && merge?.paths.join('\n') === run.join('\n');
  return (
    <div className="layer-details" {...CELL}>
      <p>{gone ? 'It is taken away, and is not in what will be written.' : worthSentence(one, visible)}</p>
      {one.does && visible && !gone && <p>{one.does}</p>}
      {one.map && visible && !gone && (
        <p className="caption quiet">On the picture the places where it is missed keep their colour.</p>
      )}
      {one.kind === 'effect' && !one.redundant && !gone && (
        <p>An effect: thin, soft, or with a mode of its own. It stays apart, to be turned up and down.</p>
      )}
      {set && <p>One of {quoted(set, 'or')}: they stand for the same place and are never seen together.</p>}
      {run && !gone && (
        <p>
          It can be one with {quoted(run.filter((it) => it !== path))}
          {merging && merge
            ? `: ${differenceWords(merge.difference)}`
            : pending?.join('\n') === run.join('\n')
              ? ': they are being put together'
              : ', without a visible change'}
          .
        </p>
      )}
      {settled && (
        <p>
          Settled at an opacity of {Math.round(100 * settled.opacity)} %
          {settled.turn === 0 ? '' : `, its hues turned by ${number(settled.turn, 0)}°`}.
        </p>
      )}
      <p className="answers">
        {set && (
          <button type="button" className="answer" onClick={() => onOptions(set)}>
            see them side by side
          </button>
        )}
        {run && !gone && (
          <button
            type="button"
            className="answer"
            aria-pressed={merging}
            onClick={() => void lookMerged(run)}
          >
            look at them as one
          </button>
        )}
        {one.kind === 'effect' && visible && !gone && !group && !one.redundant && (
          <button type="button" className="answer" onClick={onSweep}>
            see its hue and strength
          </button>
        )}
        {dropped ? (
          <button type="button" className="answer" onClick={() => decide({ kind: 'keep', path })}>
            bring it back
          </button>
        ) : gone ? null : (
          <button type="button" className="answer" onClick={() => decide({ kind: 'drop', paths: [path] })}>
            take it away
          </button>
        )}
      </p>
    </div>
  );
}
