import type { SeenLayer } from '../../workers/layers/desk.ts';
import { worthSentence, worthWords } from './words.ts';

/** What the one layer is worth that two flat pictures tell of. */
export function PairPart({ one }: { one: SeenLayer }) {
  return (
    <section aria-label="What the layer is worth">
      <p className="lead">The layer {worthWords(one)}.</p>
      <p>{one.areaShare === 0 ? 'The two pictures are the same.' : worthSentence(one, true)}</p>
      {one.map && (
        <p className="caption quiet">On the picture the places where it is missed keep their colour.</p>
      )}
    </section>
  );
}
