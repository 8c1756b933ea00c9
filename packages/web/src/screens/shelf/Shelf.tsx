import { useState } from 'react';
import { Comings } from '../../parts/Comings.tsx';
import { Frame } from '../../parts/Frame.tsx';
import { useSession } from '../../state/session.ts';
import { arrange, type Order } from './arrange.ts';
import { EmptyShelf } from './EmptyShelf.tsx';
import { ShelfMargin } from './ShelfMargin.tsx';
import { ShelfRows } from './ShelfRows.tsx';

/** All works that are kept here, as a list. */
export function Shelf() {
  const shelf = useSession((session) => session.shelf);
  const [query, setQuery] = useState('');
  const [order, setOrder] = useState<Order>('touched');
  if (shelf === null) return <Frame wall={null} margin={null} />;
  const rows = arrange(shelf, query, order);
  return (
    <Frame
      wall={
        shelf.length === 0 ? (
          <EmptyShelf />
        ) : (
          <div className="shelf">
            <h1 data-heading tabIndex={-1}>
              The shelf
            </h1>
            <ShelfRows key={order} rows={rows} />
            {rows.length === 0 && (
              <p className="quiet">
                No work on the shelf has “{query}” in its title or note. <Comings lead="Open a picture" />.
              </p>
            )}
          </div>
        )
      }
      margin={<ShelfMargin shelf={shelf} query={query} order={order} onQuery={setQuery} onOrder={setOrder} />}
    />
  );
}
