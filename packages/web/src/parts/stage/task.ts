import { create } from 'zustand';

/** Something that is to be shown on the picture by hand: an outline, a line from here to there, or one place. */
export interface StageTask {
  readonly kind: 'outline' | 'line' | 'spot';
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

/** Corners needed by each kind: an outline is closed by hand once it has three. */
const NEEDED = { outline: 3, line: 2, spot: 1 } as const;
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
  if (task.kind !== 'outline' && points.length / 2 + 1 === NEEDED[task.kind]) finishTask();
}

/** A point of a line that is drawn without lifting; a line from here to there only keeps its ends. */
export function drawTo(x: number, y: number): void {
  const { task, points } = useTask.getState();
  if (task === null) return;
  const apart = Math.hypot(x - (points.at(-2) ?? -1), y - (points.at(-1) ?? -1));
  if (task.kind === 'line') useTask.setState({ points: [...points.slice(0, 2), x, y] });
  else if (apart >= APART) useTask.setState({ points: [...points, x, y] });
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
