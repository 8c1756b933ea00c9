import { differencesOf, type GamutLook, gamutLook, type View } from '@halflight/engine';
import type { Inks, Way } from './inks.ts';
import { labInto, lightInto } from './lab.ts';

/** Ink of a picture in print. */
export interface InkUse {
  /** Largest sum of inks in per cent; 400 is all four in full. */
  readonly most: number;
  readonly mean: number;
  /** Share of the area with more than `INK_LIMIT`. */
  readonly overLimit: number;
}

/** Sum of inks that most coated papers take, per cent: common practice, no source. A printer's own word counts. */
export const INK_LIMIT = 300;

/** Colours to convert at a time. */
const PORTION = 2 ** 18;

/** A view as a profile will show it on its own white, and its inks when it has any. */
export function viewInProfile(
  view: View,
  inks: Inks,
  way: Way,
): { readonly view: View; readonly ink: InkUse | null } {
  const rgb = new Float32Array(view.rgb.length);
  const counter = inks.channels === 4 ? countInk() : null;
  const one = new Float64Array(3);
  for (let from = 0; from < rgb.length; from += 3 * PORTION) {
    const to = Math.min(rgb.length, from + 3 * PORTION);
    const lab = new Float32Array(to - from);
    for (let i = from; i < to; i += 3) labInto(lab, i - from, view.rgb[i], view.rgb[i + 1], view.rgb[i + 2]);
    const codes = inks.to(lab, 16, way);
    counter?.add(codes);
    const back = inks.back(codes);
    for (let i = from; i < to; i += 3) {
      lightInto(one, 0, back[i - from], back[i - from + 1], back[i - from + 2]);
      rgb.set(one, i);
    }
  }
  return { view: { ...view, rgb }, ink: counter?.use() ?? null };
}

/** Adds up inks while they go by. */
export function countInk(): { add(codes: Uint8Array | Uint16Array): void; use(): InkUse } {
  let most = 0;
  let sum = 0;
  let over = 0;
  let count = 0;
  return {
    add(codes) {
      const full = codes instanceof Uint16Array ? 65535 : 255;
      for (let i = 0; i < codes.length; i += 4) {
        const ink = (100 * (codes[i] + codes[i + 1] + codes[i + 2] + codes[i + 3])) / full;
        if (ink > most) most = ink;
        if (ink > INK_LIMIT) over++;
        sum += ink;
        count++;
      }
    },
    use: () => ({ most, mean: count > 0 ? sum / count : 0, overLimit: count > 0 ? over / count : 0 }),
  };
}

/**
 * What a profile loses of a view. It is told relative to the paper's white, whatever the intent; with black-point
 * compensation against the picture with its black lifted to the paper's, since that is meant and not lost. Tables of
 * both directions never agree fully: by how much a colour that the paper has differs after one more way through them
 * is taken off as an error that has nothing to do with the loss (the gamut check of LittleCMS looks twice too).
 */
export function lookInProfile(view: View, inks: Inks, way: Way): GamutLook {
  const shown = viewInProfile(view, inks, way).view;
  const relative = { intent: 'relative', blackPoint: way.blackPoint } as const;
  const once = way.intent === 'relative' ? shown : viewInProfile(view, inks, relative).view;
  const twice = viewInProfile(once, inks, { intent: 'relative', blackPoint: false }).view;
  const unsure = differencesOf(once, twice);
  const meant = way.blackPoint ? withBlackOf(view, inks) : view;
  const differences = differencesOf(meant, once).map((difference, p) =>
    Math.sqrt(Math.max(0, difference ** 2 - unsure[p] ** 2)),
  );
  return gamutLook(view, shown, differences);
}

/** Black lifted to the profile's in linear light, white kept: black-point compensation (ISO 18619:2015, 4.3). */
function withBlackOf(view: View, inks: Inks): View {
  const black = inks.back(inks.to(Float32Array.of(0, 0, 0), 16, { intent: 'relative', blackPoint: false }));
  const light = new Float64Array(3);
  lightInto(light, 0, Math.max(0, black[0]), 0, 0);
  const [, lifted] = light;
  return { ...view, rgb: view.rgb.map((v) => lifted + (1 - lifted) * v) };
}
