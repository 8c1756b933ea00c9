import type { Recipe, Step } from '@halflight/engine';
import { stepKind } from '@halflight/engine';
import { create } from 'zustand';
import { recipeOf } from '../document/recipe.ts';
import type { Work } from '../document/work.ts';
import type { OpenedPicture, Seen } from '../picture/desk.ts';
import type { LiveMeasure, TargetSpace } from '../picture/edit-desk.ts';
import { pictures } from './desks.ts';
import { perform } from './edit.ts';
import { newest } from './newest.ts';
import { openPreviewer, type Previewer } from './previewer.ts';
import { get, trouble } from './session.ts';

/** What the screen of the edit shows beyond the document. */
interface ReworkState {
  /** The edit while a value is dragged; null otherwise. */
  readonly draft: Recipe | null;
  /** The space that the colours must fit; null is what the intent says. */
  readonly space: TargetSpace | null;
  /** The whole picture as the edit makes it, quickly; null while there is nothing to show. */
  readonly image: ImageBitmap | HTMLCanvasElement | null;
  /** The edit that `image` shows: a canvas stays the same one. */
  readonly imageOf: Recipe | null;
  /** Whether the graphics card makes them. */
  readonly onCard: boolean;
  /** Numbers that follow at once; null while nothing is edited. */
  readonly live: readonly LiveMeasure[] | null;
  /** All readings of the edited picture, once the edit rests. */
  readonly after: Seen | null;
  readonly compare: 'none' | 'side' | 'fade';
  /** True while the picture before the edit is asked for by holding. */
  readonly held: boolean;
  /** Seconds for one fade. */
  readonly pace: number;
  /** Share of the edit that is shown while nothing may move by itself. */
  readonly part: number;
}

export const useRework = create<ReworkState>(() => ({
  draft: null,
  space: null,
  image: null,
  imageOf: null,
  onCard: true,
  live: null,
  after: null,
  compare: 'none',
  held: false,
  pace: 2,
  part: 1,
}));

export const setRework = useRework.setState;

/** Every reading is made again once the edit has rested so long, in milliseconds. */
const REST = 500;

interface Wish {
  readonly picture: OpenedPicture;
  readonly recipe: Recipe;
  readonly space: TargetSpace;
  readonly dragging: boolean;
}
let wish: Wish | null = null;
let previewer: Previewer | null = null;
let resting: ReturnType<typeof setTimeout> | undefined;

/** The space that the colours must fit: the one that was chosen, else that of the delivery, else the picture's own. */
export function targetSpace({ intent }: Work, chosen: TargetSpace | null): TargetSpace {
  return chosen ?? intent.delivery?.space ?? 'own';
}

/** Whether a recipe does anything. */
export function works({ steps }: Recipe): boolean {
  return steps.some(({ on, strength }) => on && strength > 0);
}

/** Shows the picture as this edit makes it, with its readings; the newest edit wins. */
export function showEdit(
  picture: OpenedPicture,
  recipe: Recipe,
  dragging: boolean,
  space: TargetSpace,
): void {
  clearTimeout(resting);
  if (!works(recipe)) {
    hideEdit();
    return;
  }
  wish = { picture, recipe, space, dragging };
  askPreview();
  askMeasures();
  setRework({ after: null });
  if (!dragging) resting = setTimeout(askReadings, REST);
}

/** Nothing is edited, or the screen is left. */
export function hideEdit(): void {
  clearTimeout(resting);
  wish = null;
  closeImage(useRework.getState().image);
  setRework({ image: null, imageOf: null, live: null, after: null });
}

/** The screen is left: the card goes back. */
export function leaveEdit(): void {
  hideEdit();
  previewer?.end();
  previewer = null;
  setRework({ draft: null, held: false, compare: 'none' });
}

function closeImage(image: ImageBitmap | HTMLCanvasElement | null): void {
  if (image instanceof ImageBitmap) image.close();
}

/** True while this is still what is wanted for the picture that is open. */
const isOpen = (mine: Wish): boolean => wish !== null && mine.picture === get().picture;

const askPreview: () => void = newest(async () => {
  const mine = wish;
  if (mine === null) return;
  previewer ??= openPreviewer(() => askPreview());
  try {
    const { picture, recipe, space, dragging } = mine;
    const image = await previewer.show(picture, recipe, space, dragging);
    if (image === null) return;
    if (!isOpen(mine)) {
      closeImage(image);
      return;
    }
    const { image: old } = useRework.getState();
    setRework({ image, imageOf: recipe, onCard: previewer.onCard() });
    if (old !== image) closeImage(old);
  } catch (error) {
    if (isOpen(mine)) trouble('reading', `The edit can’t be shown: ${(error as Error).message}`);
  }
});

const askMeasures = newest(async () => {
  const mine = wish;
  const intent = get().history?.present.intent;
  if (mine === null || !intent) return;
  const live = await pictures.desk.measure(mine.recipe, mine.space, intent).catch(() => null);
  if (live && isOpen(mine)) setRework({ live });
});

const askReadings = newest(async () => {
  const mine = wish;
  const work = get().history?.present;
  if (mine === null || !work) return;
  const { intent, answers } = work;
  const after = await pictures.desk
    .examineEdit(mine.recipe, mine.space, intent, answers)
    .catch((error: Error) => {
      if (isOpen(mine)) trouble('reading', `The readings of the edit stopped: ${error.message}`);
      return null;
    });
  if (after && wish === mine) setRework({ after });
});

/** What a step is called. */
export function titleOf({ kind }: Step): string {
  try {
    return stepKind(kind).title;
  } catch {
    return 'a newer kind of step';
  }
}

/** Changes a step: as a draft while it is dragged, as a command when that is done. */
export function changeStep(work: Work, at: number, change: Partial<Step>, done = true): void {
  const recipe = recipeOf(work);
  const old = recipe.steps[at];
  if (!old) return;
  const step = { ...old, ...change };
  if (done) {
    setRework({ draft: null });
    if (JSON.stringify(step) !== JSON.stringify(old))
      perform({ kind: 'changeStep', title: titleOf(old), at, step });
  } else {
    setRework({ draft: { ...recipe, steps: recipe.steps.map((it, index) => (index === at ? step : it)) } });
  }
}
