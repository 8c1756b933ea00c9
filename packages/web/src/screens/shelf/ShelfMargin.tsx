import { countWord, sentence } from '@halflight/engine';
import { showHelp } from '../../app/Help.tsx';
import { go } from '../../app/route.ts';
import { Comings } from '../../parts/Comings.tsx';
import { DemoOffer } from '../../parts/DemoOffer.tsx';
import { Packing } from '../../parts/Packing.tsx';
import { Troubles } from '../../parts/Troubles.tsx';
import { saveShelf } from '../../state/dossiers.ts';
import { FILLING_SENTENCE, isFilling } from '../../state/keeping.ts';
import { useSession } from '../../state/session.ts';
import { restoreWork, takeUp } from '../../state/shelf.ts';
import type { KeepingState, ShelfEntry } from '../../storage/keeper.ts';
import { type Order, restedLongest } from './arrange.ts';

const ORDERS: Record<Order, string> = {
  touched: 'last worked on',
  title: 'title',
  notes: 'number of open notes',
};

/** Says how much the store holds, and warns before it is full. */
function Fullness({ keeping }: { keeping: KeepingState | null }) {
  if (!keeping?.lasting || keeping.used === null) return null;
  const { used, allowed } = keeping;
  if (isFilling(keeping)) {
    return (
      <p className="remark">
        The browser’s store is filling up: it holds {megabytes(used)}. {FILLING_SENTENCE}
      </p>
    );
  }
  return (
    <p className="quiet caption">
      The browser’s store holds {megabytes(used)}
      {allowed ? `; the browser speaks of ${megabytes(allowed)}.` : '.'}
    </p>
  );
}

const megabytes = (bytes: number): string =>
  bytes < 1e9 ? `${Math.max(1, Math.round(bytes / 1e6))} MB` : `${(bytes / 1e9).toFixed(1)} GB`;

/** What can be done with the shelf, in sentences. */
export function ShelfMargin({
  shelf,
  query,
  order,
  onQuery,
  onOrder,
}: {
  shelf: readonly ShelfEntry[];
  query: string;
  order: Order;
  onQuery: (query: string) => void;
  onOrder: (order: Order) => void;
}) {
  const { keeping, removed } = useSession();
  const count = shelf.length;
  const resting = shelf.filter(({ state }) => state === 'resting').length;
  const longest = restedLongest(shelf);
  return (
    <>
      <h2 className="unseen">About the shelf</h2>
      <Troubles at={['opening', 'keeping', 'shelf']} />
      {removed && (
        <p className="remark">
          “{removed.title}” is off the shelf.{' '}
          <button type="button" className="clause" onClick={() => void restoreWork()}>
            Put it back
          </button>
        </p>
      )}
      {count === 0 && <p className="quiet">The notes will stand here.</p>}
      {count > 0 && (
        <div className="shelf-tools">
          <p className="lead">
            {count === 1 ? 'One work is kept here.' : `${sentence(countWord(count))} works are kept here.`}
          </p>
          <label>
            Find
            <input type="search" value={query} onChange={(event) => onQuery(event.target.value)} />
          </label>
          <label>
            In the order of
            <select value={order} onChange={(event) => onOrder(event.target.value as Order)}>
              {Object.entries(ORDERS).map(([key, words]) => (
                <option key={key} value={key}>
                  {words}
                </option>
              ))}
            </select>
          </label>
          <p>
            <Comings lead="Open a picture" />.
          </p>
          {longest && (
            <p>
              <button type="button" className="clause" onClick={() => takeUp(longest.id)}>
                Take up a resting picture
              </button>
              : {resting === 1 ? 'one rests' : `${countWord(resting)} rest, “${longest.title}” the longest`}.
              It is read anew and opens at the first thing to do.
            </p>
          )}
          <p>
            <button type="button" className="clause" onClick={() => void saveShelf()}>
              Save the whole shelf
            </button>{' '}
            as one file; opened here again, it brings every work back.
          </p>
          <Packing />
          <DemoOffer />
        </div>
      )}
      {keeping && !keeping.lasting && (
        <p className="remark">
          This window keeps nothing: works end with it. Open the app in an ordinary window to keep them.
        </p>
      )}
      {keeping?.lasting && !keeping.promised && count > 0 && (
        <p className="quiet">
          The browser keeps these works but does not promise to, and some clear a page after a week without a
          visit: install the app, or save the shelf as a file now and then.
        </p>
      )}
      <Fullness keeping={keeping} />
      <p>
        <button type="button" className="clause" onClick={() => go({ screen: 'class', of: null })}>
          Read a class
        </button>
        : many works against one intent, and a page for each.
      </p>
      <p>
        <button type="button" className="clause" onClick={() => go({ screen: 'baseline' })}>
          Read your own finished works
        </button>{' '}
        once: notes then say what is unusual for you.
      </p>
      <p>
        <button type="button" className="clause" onClick={() => go({ screen: 'layers' })}>
          Weigh the layers
        </button>{' '}
        of a picture: which still count, which can be one.
      </p>
      <p className="quiet">
        <button type="button" className="clause" onClick={showHelp}>
          Keys and cautions
        </button>
        .
      </p>
    </>
  );
}
