import { showHelp } from '../../app/Help.tsx';
import { Comings } from '../../parts/Comings.tsx';
import { capital, countWord } from '../../parts/clauses.ts';
import { DemoOffer } from '../../parts/DemoOffer.tsx';
import { Troubles } from '../../parts/Troubles.tsx';
import { useSession } from '../../state/session.ts';
import { restoreWork } from '../../state/shelf.ts';
import type { ShelfEntry } from '../../storage/keeper.ts';
import type { Order } from './arrange.ts';

const ORDERS: Record<Order, string> = {
  touched: 'last worked on',
  title: 'title',
  notes: 'number of open notes',
};

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
            {count === 1 ? 'One work is kept here.' : `${capital(countWord(count))} works are kept here.`}
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
          The browser keeps these works but does not promise to: install the app, or keep the pictures’ files
          too.
        </p>
      )}
      <p className="quiet">
        <button type="button" className="clause" onClick={showHelp}>
          Keys and cautions
        </button>
        .
      </p>
    </>
  );
}
