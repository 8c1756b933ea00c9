import { differenceWords } from '../../document/layers.ts';
import { Chosen } from '../../parts/Chosen.tsx';
import { Value } from '../../parts/Value.tsx';
import { arrange } from '../../state/thinout/arranging.ts';
import { type Arrangement, useThinout } from '../../state/thinout/store.ts';
import { weigh } from '../../state/thinout/weighing.ts';
import type { GivenPicture } from '../../workers/layers/desk.ts';
import { MODES } from './words.ts';

/** Layers that came as pictures: their order, how each meets what lies below, and what shows all of them together. */
export function ArrangePart({ arrangement }: { arrangement: Arrangement }) {
  const { difference, seen, running, source } = useThinout();
  const { pictures, flat, pair } = arrangement;
  const layers = pictures.filter(({ name }) => name !== flat);
  return (
    <section className="arrange" aria-label="The pictures as layers">
      {pictures.length === 2 && (
        <p>
          The two pictures are{' '}
          <Chosen
            label="What the two pictures are"
            value={pair ? 'pair' : 'layers'}
            options={[
              ['layers', 'two layers'],
              ['pair', 'the same without and with one layer'],
            ]}
            onChoose={(value) => void arrange({ pair: value === 'pair', flat: null })}
          />
          .
        </p>
      )}
      {pair ? (
        <p>
          “{pictures[0].name}” is without the layer, “{pictures[1].name}” with it. They can be{' '}
          <button
            type="button"
            className="clause"
            onClick={() => void arrange({ pictures: [...pictures].reverse() })}
          >
            taken the other way round
          </button>
          .
        </p>
      ) : (
        <>
          <ol className="given" aria-label="Layers, the topmost first">
            {[...layers].reverse().map((picture) => (
              <GivenLine key={picture.name} picture={picture} arrangement={arrangement} layers={layers} />
            ))}
          </ol>
          <p>
            The picture of all of them together is{' '}
            <Chosen
              label="The picture of all layers together"
              value={flat ?? ''}
              options={[['', 'not among them'], ...pictures.map(({ name }) => [name, name] as const)]}
              onChoose={(name) => void arrange({ flat: name === '' ? null : name })}
            />
            .
          </p>
          {flat !== null && (
            <p role="status">
              {difference === null
                ? `They are being held against “${flat}”.`
                : `Against “${flat}”, ${differenceWords(difference)}${
                    difference.share > 0
                      ? '; those places keep their colour, the rest fades. A mode or an opacity is another one, or a layer is missing.'
                      : '.'
                  }`}
            </p>
          )}
          {seen === null && source !== null && !running && (
            <p className="answers">
              <button type="button" className="answer" onClick={() => void weigh()}>
                weigh these layers
              </button>
            </p>
          )}
        </>
      )}
    </section>
  );
}

function GivenLine({
  picture: { name, mode, opacity, visible },
  arrangement,
  layers,
}: {
  picture: GivenPicture;
  arrangement: Arrangement;
  layers: readonly GivenPicture[];
}) {
  const at = layers.findIndex((one) => one.name === name);
  const { pictures, flat } = arrangement;
  const all = pictures.filter((one) => one.name === flat);
  const change = (next: Partial<GivenPicture>): void =>
    void arrange({ pictures: pictures.map((one) => (one.name === name ? { ...one, ...next } : one)) });
  const move = (by: number): void => {
    const to = at + by;
    if (to < 0 || to >= layers.length) return;
    const next = layers.filter((one) => one.name !== name);
    next.splice(to, 0, layers[at]);
    void arrange({ pictures: [...next, ...all] });
  };
  const leaveOut = (): void => void arrange({ pictures: pictures.filter((one) => one.name !== name) });
  return (
    <li>
      <p className="given-name">{name}</p>
      <p className="caption given-how">
        <Chosen
          label={`Mode of ${name}`}
          value={mode}
          options={MODES}
          onChoose={(next) => change({ mode: next })}
        />
        , opacity{' '}
        <Value
          label={`Opacity of ${name}`}
          value={Math.round(100 * opacity)}
          min={0}
          max={100}
          step={5}
          digits={0}
          unit={' %'}
          onChange={(next, done) => done && change({ opacity: next / 100 })}
        />
        ,{' '}
        <button
          type="button"
          className="clause"
          aria-label={`${name} is ${visible ? 'visible' : 'hidden'}`}
          onClick={() => change({ visible: !visible })}
        >
          {visible ? 'visible' : 'hidden'}
        </button>
      </p>
      <p className="caption given-ways">
        <button
          type="button"
          className="clause"
          aria-label={`${name} up`}
          disabled={at === layers.length - 1}
          onClick={() => move(1)}
        >
          up
        </button>
        <button
          type="button"
          className="clause"
          aria-label={`${name} down`}
          disabled={at === 0}
          onClick={() => move(-1)}
        >
          down
        </button>
        <button type="button" className="clause" aria-label={`leave out ${name}`} onClick={leaveOut}>
          leave out
        </button>
      </p>
    </li>
  );
}
