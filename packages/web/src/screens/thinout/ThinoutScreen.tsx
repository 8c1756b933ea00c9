import '../rework/rework.css';
import './thinout.css';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { go } from '../../app/route.ts';
import { decided, goneOf } from '../../document/layers.ts';
import { currentVersion, isLayered, type Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { Headline } from '../../parts/Headline.tsx';
import { useManyDropped } from '../../parts/many/useManyDropped.ts';
import { useOwnUndo } from '../../parts/many/useOwnUndo.ts';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { Nearness } from '../../parts/PictureWall.tsx';
import { Stage } from '../../parts/stage/Stage.tsx';
import type { StageEdit } from '../../parts/stage/usePainting.ts';
import { Troubles } from '../../parts/Troubles.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { WayAround } from '../../parts/WayAround.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';
import { keeper } from '../../state/desks.ts';
import { openIncoming } from '../../state/open.ts';
import { set } from '../../state/session.ts';
import { redoChoice, redoChoiceWords, undoChoice, undoChoiceWords } from '../../state/thinout/deciding.ts';
import { takeLayers } from '../../state/thinout/opening.ts';
import { useThinout } from '../../state/thinout/store.ts';
import { leaveOthers, weighOpenWork } from '../../state/thinout/taking.ts';
import { isStale, stopThinout, weigh } from '../../state/thinout/weighing.ts';
import { useWrite } from '../../state/write.ts';
import { ArrangePart } from './ArrangePart.tsx';
import { DecisionNotes, optionsNote } from './DecisionNotes.tsx';
import { LayerComings } from './LayerComings.tsx';
import { OptionsSheet, SweepSheet } from './LayerSheets.tsx';
import { LayerTree } from './LayerTree.tsx';
import { PairPart } from './PairPart.tsx';
import { PlanPart } from './PlanPart.tsx';
import { leadSentence, rowsOf } from './words.ts';

export { weighOpenWork };

/** What lies in place of the picture: options of a set, or of one layer's hue and strength. */
type Sheet = { readonly set: readonly string[] } | { readonly path: string } | null;

/** The picture with what each of its layers is worth; what is decided is written as a new file. */
export default function ThinoutScreen({
  work,
  picture,
}: {
  work: Work | null;
  picture: OpenedPicture | null;
}) {
  const state = useThinout();
  const { list, seen, running, stopped, arrangement, history, source, chosen, merge, difference } = state;
  const [sheet, setSheet] = useState<Sheet>(null);
  const version = work && currentVersion(work);
  const layered = version !== null && isLayered(version);
  useOwnUndo(undoChoice, redoChoice);
  useEffect(() => {
    leaveOthers(work?.id ?? null, version?.hash ?? null);
    if (layered) void weighOpenWork();
    if (useWrite.getState().running === null) useWrite.setState({ done: null });
  }, [work?.id, version?.hash, layered]);

  const take = useCallback(
    async (files: readonly File[]): Promise<void> => {
      const given = files.map((file) => ({ file, name: file.name }));
      if (work && given.length === 1 && /\.ora$/i.test(given[0].name)) {
        await openIncoming(given);
        go({ screen: 'thinout', work: work.id });
        return;
      }
      const file =
        version && !layered ? await keeper.picture(version.hash, version.mediaType).catch(() => null) : null;
      await takeLayers(given, file && version ? { file, name: version.name } : null);
    },
    [work, version, layered],
  );
  useManyDropped(take);

  const base = layered ? picture : (state.picture ?? picture);
  const image = merge?.bitmap ?? state.shown;
  const edit = useMemo(
    (): StageEdit | null => (image ? { image, window: null, fade: null, part: 1 } : null),
    [image],
  );
  const one = arrangement?.pair ? seen?.layers[0] : seen?.layers.find(({ path }) => path === chosen);
  const gone = goneOf(history.present);
  const area = merge
    ? merge.difference.share > 0
      ? merge.difference.map
      : null
    : ((one && !gone.has(one.path) && !state.turned.includes(one.path) ? one.map : null) ??
      (seen === null && difference && difference.share > 0 ? difference.map : null));
  const left = list ? countLeft(list.layers, gone) : 0;
  const toLayer = useCallback((x: number, y: number) => chooseAt(x, y), []);
  const closeSheet = (anchor: string): void => {
    setSheet(null);
    requestAnimationFrame(() => document.querySelector<HTMLElement>(anchor)?.focus());
  };
  const openOptions = (of: readonly string[]): void => setSheet({ set: of });

  return (
    <Frame
      wall={
        <>
          {work ? (
            <Headline work={work} />
          ) : (
            base && (
              <header className="headline">
                <h1>{list?.name ?? base.facts.name}</h1>
              </header>
            )
          )}
          {sheet && 'set' in sheet && seen ? (
            <OptionsSheet
              set={sheet.set}
              intent={work?.intent ?? null}
              onClose={() => {
                set({ openNote: optionsNote(sheet.set) });
                closeSheet(`[data-anchor="${CSS.escape(optionsNote(sheet.set))}"]`);
              }}
            />
          ) : sheet && 'path' in sheet && seen ? (
            <SweepSheet
              path={sheet.path}
              intent={work?.intent ?? null}
              onClose={() => closeSheet(`[data-layer="${CSS.escape(sheet.path)}"]`)}
            />
          ) : base ? (
            <div className="stage-place" data-shown={image ? 'turned' : 'file'}>
              <Stage
                picture={base}
                findings={[]}
                shown={null}
                edit={edit}
                area={area}
                onPoint={toLayer}
                pointWords="names the layer that counts most"
              />
              {merge && <p className="look-words caption">as one layer</p>}
            </div>
          ) : (
            <div className="empty">
              <div className="empty-picture">
                <h1>Layers</h1>
                <p className="lead">
                  {running
                    ? 'The picture hangs here once its layers are read.'
                    : 'Here hangs a picture that came in layers, and beside it stands what each of them is worth.'}
                </p>
              </div>
            </div>
          )}
          {base && <Nearness picture={base} />}
        </>
      }
      margin={
        <>
          <NotesPart title="Thin out">
            <Troubles at={['writing']} />
            {list && (
              <p className="lead" data-weighed={seen ? true : undefined}>
                {leadSentence(list.layers, seen, left)}
              </p>
            )}
            {source === null && (
              <p>
                {work && !layered && 'This picture came as one layer. '}
                <LayerComings
                  lead={work && !layered ? 'Open its layered file' : 'Open a layered file'}
                  flat={work !== null && !layered}
                  onTake={(files) => void take(files)}
                />
                .
              </p>
            )}
            {running && <Waiting what={running.what} progress={running.progress} onStop={stopThinout} />}
            {stopped && !running && (
              <p>
                It was stopped; nothing is lost.{' '}
                <button type="button" className="clause" onClick={() => void weigh()}>
                  Read and weigh the layers
                </button>
                .
              </p>
            )}
            {seen && !running && isStale(state) && (
              <p>
                The numbers are from before what you decided.{' '}
                <button type="button" className="clause" onClick={() => void weigh()}>
                  Weigh again
                </button>
                .
              </p>
            )}
            {state.picture?.remarks.map((remark) => (
              <p key={remark} className="remark">
                {remark}
              </p>
            ))}
            {arrangement && <ArrangePart arrangement={arrangement} />}
            {list && seen && (
              <ul className="notes">
                <DecisionNotes list={list} seen={seen} onOptions={openOptions} />
                <PlanPart name={list.name} depth={base?.facts.depth ?? 8} />
              </ul>
            )}
            {(decided(history.present) || history.undone.length > 0) && <UndoWords />}
            {arrangement?.pair && seen && <PairPart one={seen.layers[0]} />}
            {list && (!arrangement || seen) && (
              <LayerTree
                list={list}
                seen={seen}
                onOptions={openOptions}
                onSweep={(path) => setSheet({ path })}
              />
            )}
          </NotesPart>
          <section className="rest-part" aria-label="The way around">
            {source !== null && !layered && (
              <p>
                <LayerComings
                  lead="Open another layered file"
                  flat={false}
                  onTake={(files) => void take(files)}
                />
                .
              </p>
            )}
            <p className="quiet">
              What a layer is worth is advice; your eye decides. The file that was opened is never changed.
            </p>
            {work ? (
              <WayAround />
            ) : (
              <p>
                <button type="button" className="clause" onClick={() => go({ screen: 'shelf' })}>
                  Back to the shelf
                </button>
                .
              </p>
            )}
          </section>
        </>
      }
    />
  );
}

function UndoWords() {
  const { history } = useThinout();
  const [back, again] = [undoChoiceWords(history), redoChoiceWords(history)];
  if (!back && !again) return null;
  return (
    <p>
      {back && (
        <button type="button" className="clause" onClick={undoChoice}>
          Undo {back}
        </button>
      )}
      {back && again && ', or '}
      {again && (
        <button type="button" className="clause" onClick={redoChoice}>
          {back ? 'redo' : 'Redo'} {again}
        </button>
      )}
      .
    </p>
  );
}

/** Layers that are still there, those in groups that are gone not among them. */
function countLeft(list: Parameters<typeof rowsOf>[0], gone: ReadonlySet<string>): number {
  return list
    .filter(({ path }) => !gone.has(path))
    .reduce((sum, { group, children }) => sum + (group ? countLeft(children, gone) : 1), 0);
}

/** Chooses the layer that counts most at a place. */
function chooseAt(x: number, y: number): void {
  const { seen, list } = useThinout.getState();
  if (!seen || !list) return;
  const groups = new Set(rowsOf(list.layers).flatMap(({ layer }) => (layer.group ? [layer.path] : [])));
  let best: { readonly path: string; readonly value: number } | null = null;
  for (const { path, map, mean } of seen.layers) {
    if (!map || groups.has(path)) continue;
    const at = Math.floor(y * map.height) * map.width + Math.floor(x * map.width);
    const value = map.data[at] * mean;
    if (map.data[at] > 12 && value > (best?.value ?? 0)) best = { path, value };
  }
  if (best === null) {
    set({ said: 'No layer is missed at this place.' });
    return;
  }
  useThinout.setState({ chosen: best.path });
  set({ said: `${best.path} counts most here.` });
  const path = best.path;
  requestAnimationFrame(() =>
    document.querySelector(`[data-layer="${CSS.escape(path)}"]`)?.scrollIntoView({ block: 'nearest' }),
  );
}
