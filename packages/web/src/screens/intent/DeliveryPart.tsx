import { DELIVERY_SPACES, type DeliveryIntent } from '@halflight/engine';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { Value } from '../../parts/Value.tsx';
import { decide } from '../../state/decide.ts';
import { useSession } from '../../state/session.ts';

type SpaceName = DeliveryIntent['space'];

const SPACE_WORDS: Record<SpaceName, string> = {
  srgb: 'sRGB, for every screen',
  'display-p3': 'Display P3, for wide screens',
  'a98-rgb': 'a98-rgb, for print shops that ask for it',
};

/** Where the picture goes: the readings count the room its colours have there. */
export function DeliveryPart({ delivery }: { delivery: DeliveryIntent | undefined }) {
  const facts = useSession((session) => session.picture?.facts);
  const own = facts ? Math.max(facts.width, facts.height) : 3000;
  return (
    <NoteFrame name="intent delivery" sentence={sentenceOf(delivery)}>
      <label>
        It is handed over in
        <select
          value={delivery?.space ?? ''}
          onChange={(event) => {
            const space = event.target.value as SpaceName | '';
            decide('delivery', space === '' ? undefined : { ...delivery, space });
          }}
        >
          <option value="">the colours it has</option>
          {(Object.keys(DELIVERY_SPACES) as SpaceName[]).map((name) => (
            <option key={name} value={name}>
              {SPACE_WORDS[name]}
            </option>
          ))}
        </select>
      </label>
      {delivery && (
        <p>
          {delivery.longSide === undefined ? (
            <>
              In the size it has;{' '}
              <button
                type="button"
                className="clause"
                onClick={() => decide('delivery', { ...delivery, longSide: own })}
              >
                name a size
              </button>
              .
            </>
          ) : (
            <LongSide delivery={delivery} longSide={delivery.longSide} />
          )}
        </p>
      )}
    </NoteFrame>
  );
}

function LongSide({ delivery, longSide }: { delivery: DeliveryIntent; longSide: number }) {
  const { longSide: _size, ...sizeless } = delivery;
  return (
    <>
      With{' '}
      <Value
        label="Pixels on the long side"
        value={longSide}
        min={16}
        max={40_000}
        step={10}
        digits={0}
        onChange={(value, done) => done && decide('delivery', { ...delivery, longSide: value })}
      />{' '}
      pixels on the long side;{' '}
      <button type="button" className="clause" onClick={() => decide('delivery', sizeless)}>
        as it is
      </button>
      .
    </>
  );
}

function sentenceOf(delivery: DeliveryIntent | undefined): string {
  if (!delivery) return 'The delivery is left open.';
  const size = delivery.longSide === undefined ? '' : `, ${delivery.longSide} pixels long`;
  return `It is handed over in ${DELIVERY_SPACES[delivery.space].name}${size}.`;
}
