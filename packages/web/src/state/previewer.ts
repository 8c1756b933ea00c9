import type { Recipe, Step } from '@halflight/engine';
import { type Card, takeCard } from '../gpu/card.ts';
import { screenSpace } from '../picture/client.ts';
import type { OpenedPicture, SeenMap } from '../picture/desk.ts';
import type { TargetSpace } from '../picture/edit-desk.ts';
import { pictures } from './desks.ts';

/** Long sides of the picture on the card: a slow card gets a smaller one. */
const SIDES = [1280, 800, 480];
/** A card that takes longer for a picture, in milliseconds, is slow: 50 pictures a second. */
const SLOW = 20;
/** So many pictures are timed. */
const SAMPLES = 3;
/** Long sides of the picture that the worker makes: while a value is dragged, and at once after. */
const COARSE = 480;
const FINE = 960;

/** Makes quick pictures of an edit: on the graphics card where there is one, else in the worker. */
export interface Previewer {
  /** Null when a newer wish came. A canvas stays the same one; a bitmap is the caller's to close. */
  show(
    picture: OpenedPicture,
    recipe: Recipe,
    space: TargetSpace,
    dragging: boolean,
  ): Promise<HTMLCanvasElement | ImageBitmap | null>;
  /** Whether a card does it. */
  onCard(): boolean;
  end(): void;
}

/** @param onLost called when the card gives up: the worker goes on */
export function openPreviewer(onLost: () => void): Previewer {
  let card: Card | null = takeCard(screenSpace(), () => {
    card = null;
    onLost();
  });
  let shown: { picture: OpenedPicture; side: number } | null = null;
  let speed = 0;
  const covers = new Map<string, SeenMap | null>();

  const coverOf = async (step: Step, side: number): Promise<SeenMap | null> => {
    const name = JSON.stringify([step.area, side]);
    if (!covers.has(name)) {
      const map = await pictures.desk.areaMap(step, side);
      if (covers.size > 12) covers.clear();
      covers.set(name, map);
    }
    return covers.get(name) ?? null;
  };

  /** The first picture makes the program ready; the quickest of the next ones tells how fast the card is. */
  const times: number[] = [];
  const draw = (mine: Card, run: () => void): void => {
    const start = performance.now();
    run();
    if (times.length > SAMPLES) return;
    mine.finish();
    times.push(performance.now() - start);
    if (times.length <= SAMPLES || speed === SIDES.length - 1) return;
    if (Math.min(...times.slice(1)) > SLOW) {
      speed++;
      times.length = 0;
    }
  };

  const byCard = async (
    mine: Card,
    picture: OpenedPicture,
    recipe: Recipe,
    space: TargetSpace,
    dragging: boolean,
  ): Promise<HTMLCanvasElement | null> => {
    const side = SIDES[speed];
    if (shown?.picture !== picture) covers.clear();
    const isShown = (): boolean => shown?.picture === picture && shown.side === side;
    const source = isShown() ? null : await pictures.desk.cardSource(side);
    const passes = await pictures.desk.bake(recipe, space, side, !dragging);
    if (passes === null) return null;
    const maps = await Promise.all(
      passes.map(({ areaOf }) => (areaOf === null ? null : coverOf(recipe.steps[areaOf], side))),
    );
    if (!mine.alive() || (source === null && !isShown())) return null;
    if (source) {
      // Another size empties the canvas: not before all that is to be drawn on it is there.
      mine.setPicture(source);
      shown = { picture, side };
    }
    draw(mine, () => mine.draw(passes, maps));
    return mine.canvas;
  };
  return {
    async show(picture, recipe, space, dragging) {
      if (card?.alive()) return byCard(card, picture, recipe, space, dragging);
      return pictures.desk.preview(recipe, space, dragging ? COARSE : FINE);
    },
    onCard: () => card?.alive() ?? false,
    end() {
      card?.end();
      card = null;
    },
  };
}
