import { Comings } from '../../parts/Comings.tsx';
import { DemoOffer } from '../../parts/DemoOffer.tsx';

/** The first sight: where a picture will hang, and what will happen then. */
export function EmptyShelf() {
  return (
    <div className="empty">
      <div className="empty-picture">
        <h1>Halflight</h1>
        <p className="lead">
          Hang a picture here, and what stands between it and its mood is written in its margin: where, why,
          and what to do.
        </p>
        <p>
          <Comings lead="Open a picture" />. It never leaves this machine.
        </p>
        <DemoOffer />
      </div>
    </div>
  );
}
