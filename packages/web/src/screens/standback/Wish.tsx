import { Value } from '../../parts/Value.tsx';
import {
  beginLook,
  LONGEST,
  type LookWish,
  SHORTEST,
  type Sizes,
  type Surround,
  useLook,
  wishLook,
} from '../../state/look.ts';

const SIZE_WORDS: Record<Sizes, string> = {
  both: 'large at first, then small',
  large: 'as large as the screen',
  small: 'small, as from across a room',
};
const NEXT_SIZES: Record<Sizes, Sizes> = { both: 'large', large: 'small', small: 'both' };
const SURROUND_WORDS: Record<Surround, string> = {
  grey: 'middle grey',
  dark: 'dark grey',
  average: 'a grey as light as the picture',
};
const NEXT_SURROUND: Record<Surround, Surround> = { grey: 'dark', dark: 'average', average: 'grey' };

/** How the look is taken, as sentences whose words can be changed, and the press that begins it. */
export function Wish() {
  const wish = useLook((state) => state.wish);
  const { seconds, sizes, mirrored, surround, by } = wish;
  return (
    <>
      <p>
        Nothing but the picture, for{' '}
        <Value
          label="Length of the look"
          value={seconds}
          min={SHORTEST}
          max={LONGEST}
          step={1}
          digits={0}
          unit=" seconds"
          onChange={(value) => wishLook({ seconds: value })}
        />
        : <Turn words={SIZE_WORDS[sizes]} to={{ sizes: NEXT_SIZES[sizes] }} />,{' '}
        <Turn words={mirrored ? 'mirrored' : 'not mirrored'} to={{ mirrored: !mirrored }} />, on{' '}
        <Turn words={SURROUND_WORDS[surround]} to={{ surround: NEXT_SURROUND[surround] }} />. It is{' '}
        <Turn
          words={by === 'own' ? 'my own eye' : 'a guest’s eye'}
          to={{ by: by === 'own' ? 'guest' : 'own' }}
        />
        .
      </p>
      <p>
        <button type="button" className="answer" onClick={() => void beginLook()}>
          Begin the look
        </button>
      </p>
      <p className="quiet">Any key, a tap or the time ends it. Then three questions are asked.</p>
      {(seconds !== 2 || !mirrored) && (
        <p className="quiet">
          After many hours one’s own first look is worth little: open the day with{' '}
          <Turn words="two seconds, mirrored" to={{ seconds: 2, mirrored: true, sizes: 'large' }} />, or let
          somebody else look.
        </p>
      )}
    </>
  );
}

/** Words that turn into the next choice when pressed. */
function Turn({ words, to }: { words: string; to: Partial<LookWish> }) {
  return (
    <button type="button" className="clause" onClick={() => wishLook(to)}>
      {words}
    </button>
  );
}
