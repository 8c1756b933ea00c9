import type { Finding } from '@halflight/engine';
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { OpenedPicture, SeenMap } from '../../picture/desk.ts';
import { useLight } from '../../state/light.ts';
import { readPlace } from '../../state/readings.ts';
import { set, useSession } from '../../state/session.ts';
import { useSettings } from '../../state/settings.ts';
import { arrowed } from './arrows.ts';
import { listen } from './gestures.ts';
import { Marks } from './Marks.tsx';
import { noteAt } from './places.ts';
import { useStage } from './stage-store.ts';
import { drawTo, finishTask, setCorner, useTask } from './task.ts';
import { type StageEdit, usePainting } from './usePainting.ts';
import { useVeil } from './useVeil.ts';
import { moveBy, pictureShare, type StageView, settle, wholeView, zoomAt } from './view.ts';

/** Radius of what a tap reads, in CSS pixels. */
const FINGER = 4;

/** The picture on its wall: it can be moved, zoomed, read anywhere, and shows where a note is about. */
export function Stage({
  picture,
  findings,
  shown,
  edit = null,
  area = null,
  twin = false,
  onPoint,
  pointWords = 'reads the place',
}: {
  picture: OpenedPicture;
  findings: readonly Finding[];
  /** The finding whose places are shown. */
  shown: Finding | null;
  /** What is shown in place of the picture as it was opened. */
  edit?: StageEdit | null;
  /** An area to show instead of a finding's places. */
  area?: SeenMap | null;
  /** Beside another stage, whose view it follows. */
  twin?: boolean;
  /** What a tap on a place does instead of reading it, in shares of the picture. */
  onPoint?: (x: number, y: number) => void;
  /** What that is, to be read before "under the mark". */
  pointWords?: string;
}) {
  const stageRef = useRef<HTMLDivElement>(null);
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const { view, box } = useStage();
  const wall = useSettings((settings) => settings.wall);
  const veil = useVeil(picture, shown, wall, area);
  const { task, points } = useTask();
  const light = useLight();
  const [cross, setCross] = useState({ x: 0.5, y: 0.5, shown: false });
  const place = useSession((session) => (session.route.screen === 'check' ? session.place : null));
  const { width, height } = picture.facts;
  usePainting(canvasRef, picture, view, box, veil, edit);
  useFit(stageRef, picture, twin);

  const latest = useRef({ findings, onPoint });
  latest.current = { findings, onPoint };

  useEffect(() => {
    const stage = stageRef.current;
    if (stage === null) return;
    const size = { width, height };
    const change = (next: (view: StageView, stage: Box) => StageView): void =>
      useStage.setState((state) => ({ view: next(state.view, state.box) }));
    return listen(stage, {
      tap: (at) => {
        const { view } = useStage.getState();
        const share = pictureShare(view, at, size);
        if (share) point(share, latest.current.onPoint);
      },
      drawing: () => {
        const { task } = useTask.getState();
        return task !== null && task.kind !== 'spot';
      },
      draw: (at) => {
        const { view } = useStage.getState();
        const inside = (value: number): number => Math.min(1, Math.max(0, value));
        drawTo(
          inside((at.x - view.x) / (view.scale * width)),
          inside((at.y - view.y) / (view.scale * height)),
        );
      },
      drawn: (kept) => (kept ? finishTask() : useTask.setState({ points: [] })),
      hover: (at) => {
        const share = at && pictureShare(useStage.getState().view, at, size);
        set({ pointedNote: share ? noteAt(latest.current.findings, share.x, share.y) : null });
      },
      move: (dx, dy) => change((view, box) => moveBy(view, dx, dy, size, box)),
      zoom: (factor, at) => change((view, box) => zoomAt(view, factor, at, size, box)),
    });
  }, [width, height]);

  const onKeyDown = (event: KeyboardEvent): void => {
    const to = arrowed(event, [cross.x, cross.y]);
    if (to) {
      setCross({ x: to[0], y: to[1], shown: true });
    } else if (event.key === 'Enter' || event.key === ' ') {
      point(cross, onPoint);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div
      ref={stageRef}
      className="stage"
      role="application"
      aria-label={`The picture ${picture.facts.name}${twin ? ' before the edit' : ''}. Arrows move a mark over it, Enter ${task ? 'sets a corner' : pointWords} under the mark.`}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: reading a place with the keyboard needs the focus here
      tabIndex={0}
      onKeyDown={onKeyDown}
      onBlur={() => setCross({ ...cross, shown: false })}
    >
      <canvas ref={canvasRef} className="canvas" aria-hidden />
      <Marks
        view={view}
        size={{ width, height }}
        finding={shown}
        place={place}
        cross={cross.shown ? cross : null}
        drawn={task ? points : []}
        pairs={light.of === place ? (light.explained?.pairs.slice(0, 4) ?? []) : []}
      />
    </div>
  );
}

/** A place was meant, by a tap or by the keyboard: a corner of what is being drawn, else it is read. */
function point({ x, y }: { x: number; y: number }, instead?: (x: number, y: number) => void): void {
  if (useTask.getState().task) setCorner(x, y);
  else if (instead) instead(x, y);
  else if (useSession.getState().route.screen === 'check')
    void readPlace(x, y, FINGER / useStage.getState().view.scale);
}

type Box = { width: number; height: number };

/** Keeps the stage's box known and the picture fitting it: whole at first and as long as it was whole. */
function useFit(
  stageRef: React.RefObject<HTMLDivElement | null>,
  picture: OpenedPicture,
  twin: boolean,
): void {
  const { width, height } = picture.facts;
  useEffect(() => {
    const stage = stageRef.current;
    if (stage === null || twin) return;
    const size = { width, height };
    let whole = true;
    const fit = (): void => {
      const { left, top, width: w, height: h } = stage.getBoundingClientRect();
      const before = useStage.getState();
      const box = { left, top, width: w, height: h };
      if (before.box.width > 0) whole ||= before.view.scale <= wholeView(size, before.box).scale * 1.001;
      useStage.setState({ box, view: whole ? wholeView(size, box) : settle(before.view, size, box) });
      whole = false;
    };
    const observer = new ResizeObserver(fit);
    observer.observe(stage);
    fit();
    return () => observer.disconnect();
  }, [stageRef, width, height, twin]);
}

/** Zooms about the middle of the stage; 0 shows the whole picture, 1 its own pixels. */
export function zoomStage(picture: OpenedPicture, wish: 'closer' | 'farther' | 'whole' | 'own'): void {
  const { view, box } = useStage.getState();
  const size = picture.facts;
  const middle = { x: box.width / 2, y: box.height / 2 };
  const own = 1 / window.devicePixelRatio / view.scale;
  const factor = wish === 'own' ? own : wish === 'closer' ? 1.5 : 1 / 1.5;
  const next = wish === 'whole' ? wholeView(size, box) : zoomAt(view, factor, middle, size, box);
  useStage.setState({ view: next });
}
