import { create } from 'zustand';

/** Something that is to be shown on the picture by hand: an outline, an open stroke, a line from here to there, or one place. */
export interface StageTask {
  readonly kind: 'outline' | 'stroke' | 'line' | 'spot';
  /** What to do, a whole sentence. */
  readonly words: string;
  /** Called once with x and y in turn, in shares of the picture. */
  readonly done: (points: readonly number[]) => void;
}

interface TaskState {
  readonly task: StageTask | null;
  /** What is drawn so far, x and y in turn. */
  readonly points: readonly number[];
}

export const useTask = create<TaskState>(() => ({ task: null, points: [] }));

/** Corners needed by each kind: an outline or a stroke is ended by hand once it has enough. */
const NEEDED = { outline: 3, stroke: 2, line: 2, spot: 1 } as const;
/** Points of a drawn line nearer than this, in shares of the picture, say nothing more. */
const APART = 0.004;

export function beginTask(task: StageTask): void {
  useTask.setState({ task, points: [] });
}

export function giveUpTask(): void {
  useTask.setState({ task: null, points: [] });
}

/** A corner set by a tap or by the keyboard. */
export function setCorner(x: number, y: number): void {
  const { task, points } = useTask.getState();
  if (task === null) return;
  useTask.setState({ points: [...points, x, y] });
  if (!isFree(task) && points.length / 2 + 1 === NEEDED[task.kind]) finishTask();
}

/** A point of a line that is drawn without lifting; a line from here to there only keeps its ends. */
export function drawTo(x: number, y: number): void {
  const { task, points } = useTask.getState();
  if (task === null) return;
  const apart = Math.hypot(x - (points.at(-2) ?? -1), y - (points.at(-1) ?? -1));
  if (task.kind === 'line') useTask.setState({ points: [...points.slice(0, 2), x, y] });
  else if (apart >= APART) useTask.setState({ points: [...points, x, y] });
}

/** Outlines and strokes have as many corners as the hand gives them. */
export function isFree({ kind }: StageTask): boolean {
  return kind === 'outline' || kind === 'stroke';
}

/** Whether what is drawn so far is enough. */
export function isEnough({ task, points }: TaskState): boolean {
  return task !== null && points.length / 2 >= NEEDED[task.kind];
}

export function finishTask(): void {
  const state = useTask.getState();
  const { task, points } = state;
  if (task === null || !isEnough(state)) return;
  giveUpTask();
  task.done(points);
}
