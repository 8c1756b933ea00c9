import { type KeyboardEvent, useRef, useState } from 'react';
import { goneOf } from '../../document/layers.ts';
import { Chosen } from '../../parts/Chosen.tsx';
import { say } from '../../state/session.ts';
import { turn } from '../../state/thinout/looking.ts';
import { useThinout } from '../../state/thinout/store.ts';
import type { ListedPicture, SeenLayers } from '../../workers/layers/desk.ts';
import { LayerDetails } from './LayerDetails.tsx';
import { CELL, FILTERS, type Filter, passes, type Row, rowsOf, rowWords } from './words.ts';

/** All layers, the topmost first; up and down go through them, Space shows and hides, Enter opens. */
export function LayerTree({
  list,
  seen,
  onSweep,
  onOptions,
}: {
  list: ListedPicture;
  seen: SeenLayers | null;
  onSweep: (path: string) => void;
  onOptions: (set: readonly string[]) => void;
}) {
  const { chosen, turned, read, history } = useThinout();
  const [filter, setFilter] = useState<Filter>('all');
  const [closed, setClosed] = useState<readonly string[]>([]);
  const [focused, setFocused] = useState<string | null>(null);
  const tree = useRef<HTMLDivElement>(null);
  const rows = rowsOf(list.layers).filter(({ layer }) => passes(filter, layer.path, seen));
  const hidden = (row: Row): boolean =>
    filter === 'all' && closed.some((path) => row.layer.path.startsWith(`${path}/`));
  const shown = rows.filter((row) => !hidden(row));
  const gone = goneOf(history.present);
  const most = Math.max(0.01, ...(seen?.layers.map(({ mean }) => mean) ?? []));
  const stop = shown.some(({ layer }) => layer.path === focused) ? focused : (shown[0]?.layer.path ?? null);

  const focus = (path: string | undefined): void => {
    if (path === undefined) return;
    setFocused(path);
    tree.current?.querySelector<HTMLElement>(`[data-layer="${CSS.escape(path)}"]`)?.focus();
  };
  const open = (path: string): void => useThinout.setState({ chosen: chosen === path ? null : path });
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>, { layer, parent }: Row): void => {
    if (event.target !== event.currentTarget) return;
    const at = shown.findIndex((row) => row.layer.path === layer.path);
    const isClosed = closed.includes(layer.path);
    switch (event.key) {
      case 'ArrowDown':
        focus(shown[at + 1]?.layer.path);
        break;
      case 'ArrowUp':
        focus(shown[at - 1]?.layer.path);
        break;
      case 'Home':
        focus(shown[0]?.layer.path);
        break;
      case 'End':
        focus(shown.at(-1)?.layer.path);
        break;
      case 'ArrowRight':
        if (layer.group && isClosed) setClosed(closed.filter((path) => path !== layer.path));
        else if (layer.group) focus(shown[at + 1]?.layer.path);
        break;
      case 'ArrowLeft':
        if (layer.group && !isClosed) setClosed([...closed, layer.path]);
        else if (parent) focus(parent);
        break;
      case ' ':
        turnTold(layer.path, layer.name);
        break;
      case 'Enter':
        open(layer.path);
        break;
      case 'Escape':
        if (chosen === null) return;
        useThinout.setState({ chosen: null });
        break;
      default:
        return;
    }
    event.preventDefault();
    event.stopPropagation();
  };
  const isShown = (path: string, visible: boolean): boolean => {
    const by = history.present.chosen.find(({ set }) => set.includes(path));
    const decided = by ? by.kept === path : visible;
    return turned.includes(path) ? !decided : decided;
  };
  const turnTold = (path: string, name: string): void => {
    const row = rows.find(({ layer }) => layer.path === path);
    if (!row || gone.has(path)) return;
    say(`${name}: ${isShown(path, row.layer.visible) ? 'hidden' : 'shown'}, to look.`);
    turn(path);
  };

  return (
    <section className="layers" aria-label="The layers">
      {seen && (
        <p>
          Here are{' '}
          <Chosen
            label="Which layers are listed"
            value={filter}
            options={FILTERS}
            onChoose={(value) => setFilter(value as Filter)}
          />
          , the topmost first.{' '}
          <span className="quiet">
            One is shown or hidden only for a look (Space); nothing is changed by that.
          </span>
        </p>
      )}
      {shown.length === 0 ? (
        <p className="quiet">There are none.</p>
      ) : (
        <div ref={tree} className="tree" role="treegrid" aria-label="Layers, the topmost first">
          {shown.map((row) => {
            const { layer, depth } = row;
            const { path, name, group, visible } = layer;
            const one = seen?.layers.find((it) => it.path === path);
            const now = isShown(path, visible);
            const away = gone.has(path);
            const unweighed = now && !visible && one?.mean === 0 && !one.redundant;
            const words = away
              ? 'taken away'
              : unweighed
                ? 'not weighed while it was hidden'
                : rowWords({ ...layer, visible: now }, one);
            return (
              // biome-ignore lint/a11y/useSemanticElements: a table laid out as a list loses its roles in browsers
              <div
                key={path}
                role="row"
                className="tree-item"
                data-layer={path}
                data-off={away || !now || undefined}
                aria-level={depth + 1}
                aria-selected={chosen === path}
                aria-expanded={group ? !closed.includes(path) : undefined}
                aria-label={`${name}${group ? ', a group' : ''}. ${words}`}
                tabIndex={path === stop ? 0 : -1}
                style={{ '--depth': depth } as React.CSSProperties}
                onFocus={(event) => event.target === event.currentTarget && setFocused(path)}
                onKeyDown={(event) => onKeyDown(event, row)}
                onClick={(event) => (event.target as HTMLElement).closest('.tree-row') && open(path)}
              >
                <div className="tree-row" {...CELL}>
                  <span className="tree-name">{group ? `${name} (group)` : name}</span>
                  <span className="caption quiet">
                    {!seen && !group ? (read.has(path) ? words || 'read' : 'not read yet') : words}
                  </span>
                  {one && !away && now && (
                    <span
                      className="tree-worth"
                      style={{ '--share': Math.sqrt(one.mean / most) } as React.CSSProperties}
                      aria-hidden
                    />
                  )}
                </div>
                {seen && !away && (
                  <div {...CELL}>
                    <button
                      type="button"
                      className="clause caption tree-turn"
                      tabIndex={-1}
                      aria-label={`${now ? 'Hide' : 'Show'} ${name} for a look`}
                      onClick={() => turnTold(path, name)}
                    >
                      {now ? 'hide' : 'show'}
                    </button>
                  </div>
                )}
                {chosen === path && one && (
                  <LayerDetails
                    layer={{ ...layer, visible: now }}
                    one={one}
                    gone={away}
                    onSweep={() => onSweep(path)}
                    onOptions={onOptions}
                  />
                )}
              </div>
            );
          })}
        </div>
      )}
    </section>
  );
}
