import type { Intent } from '@halflight/engine';
import { proxy, type Remote } from 'comlink';
import { useEffect, useRef, useState } from 'react';
import { chosenOf } from '../../document/layers.ts';
import { number } from '../../parts/ReadingDetails.tsx';
import { OptionGrid } from '../../parts/sheet/OptionGrid.tsx';
import { Stopped } from '../../picture/client.ts';
import { say, trouble } from '../../state/session.ts';
import { decide } from '../../state/thinout/deciding.ts';
import { hold, layersClient } from '../../state/thinout/holding.ts';
import { useThinout } from '../../state/thinout/store.ts';
import type { LayersDesk, OptionLook, SweepAxes } from '../../workers/layers/desk.ts';

/** Small pictures as the worker makes them; those of a closed sheet are let go. */
function useLooks(ask: (desk: Remote<LayersDesk>, each: (look: OptionLook) => void) => Promise<void>) {
  const [looks, setLooks] = useState<readonly OptionLook[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the sheet shows what was when it was opened
  useEffect(() => {
    let wanted = true;
    const each = (look: OptionLook): void => {
      if (wanted) setLooks((old) => [...old, look]);
      else look.bitmap.close();
    };
    hold()
      .then(() => layersClient.run((desk) => ask(desk, proxy(each))))
      .catch((error: Error) => {
        if (wanted && !(error instanceof Stopped) && error.name !== 'AbortError')
          trouble('reading', `The options could not be made: ${error.message}`);
      });
    return () => {
      wanted = false;
      void layersClient.run((desk) => desk.closeSheet()).catch(() => undefined);
      setLooks((old) => {
        for (const { bitmap } of old) bitmap.close();
        return [];
      });
    };
  }, []);
  return looks;
}

/** The picture with each layer of a set. Choosing one closes the choice; the others go. */
export function OptionsSheet({
  set,
  intent,
  onClose,
}: {
  set: readonly string[];
  intent: Intent | null;
  onClose: () => void;
}) {
  const choices = useRef(useThinout.getState().history.present).current;
  const looks = useLooks((desk, each) => desk.options(set, choices, intent, each));
  const { others } = chosenOf(choices, set) ?? { others: 'drop' as const };
  return (
    <OptionGrid
      label="Layers of which one is to be chosen"
      columns={set.length > 4 ? 3 : 2}
      options={set.map((path, index) => {
        const look = looks.find((it) => it.index === index);
        return { key: path, words: path, distance: look?.distance ?? null, bitmap: look?.bitmap };
      })}
      onChoose={(index) => {
        decide({ kind: 'choose', chosen: { set, kept: set[index], others } });
        say(`“${set[index]}” is chosen.`);
        onClose();
      }}
      onClose={onClose}
      intro={
        <>
          The picture with each of them. Choose one (arrows and Enter), and the others go.{' '}
          <button type="button" className="clause" onClick={onClose}>
            Leave it open
          </button>
          .
        </>
      }
    />
  );
}

/** One layer at several hues and strengths. Choosing one settles it. */
export function SweepSheet({
  path,
  intent,
  onClose,
}: {
  path: string;
  intent: Intent | null;
  onClose: () => void;
}) {
  const choices = useRef(useThinout.getState().history.present).current;
  const [axes, setAxes] = useState<SweepAxes | null>(null);
  const looks = useLooks(async (desk, each) => {
    setAxes(await desk.sweepAxes(path, choices));
    await desk.sweep(path, choices, intent, each);
  });
  const { turns, opacities } = axes ?? { turns: [], opacities: [] };
  const all = opacities.flatMap((opacity) => turns.map((turn) => ({ turn, opacity })));
  if (axes === null) return <p className="sheet quiet">Laying out the hues and strengths of “{path}”.</p>;
  return (
    <OptionGrid
      label={`Hue and strength of ${path}`}
      columns={turns.length > 1 ? turns.length : 2}
      options={all.map(({ turn, opacity }, index) => {
        const look = looks.find((it) => it.index === index);
        return {
          key: `${turn} ${opacity}`,
          words: [strengthWords(opacity), ...(turns.length > 1 ? [hueWords(turn)] : [])].join(', '),
          distance: look?.distance ?? null,
          bitmap: look?.bitmap,
        };
      })}
      onChoose={(index) => {
        decide({ kind: 'settle', settled: { path, ...all[index] } });
        say(`“${path}” is settled.`);
        onClose();
      }}
      onClose={onClose}
      intro={
        <>
          “{path}”:{' '}
          {turns.length > 1
            ? 'its hue from left to right, its strength from top to bottom.'
            : 'its strength; it is grey and has no hue to turn.'}{' '}
          Choose one (arrows and Enter).{' '}
          <button type="button" className="clause" onClick={onClose}>
            Leave it as it is
          </button>
          .
        </>
      }
    />
  );
}

function strengthWords(opacity: number): string {
  return `${number(100 * opacity, 0)} %`;
}

function hueWords(turn: number): string {
  return turn === 0 ? 'its own hue' : `hue ${turn > 0 ? '+' : ''}${number(turn, 0)}°`;
}
