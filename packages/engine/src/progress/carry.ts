import type { AreaPart } from '../areas/area.ts';
import type { Recipe } from '../edits/step.ts';
import type { Intent } from '../intent/intent.ts';
import { carryOutline, type Pose, toLater } from './pose.ts';

type Outline = readonly number[];

/** A closed outline carried to the later picture and cut at its border; null when all of it lies outside. */
export function carryArea(pose: Pose, outline: Outline): number[] | null {
  const cut = clip(carryOutline(pose, outline));
  return cut.length >= 6 ? cut : null;
}

/** An intent with its focus carried to the later picture; a focus that was cropped away is open again. */
export function carryIntent(pose: Pose, intent: Intent): Intent {
  if (!intent.focus) return intent;
  const { focus, ...rest } = intent;
  const outlines = carryAll(pose, focus.outlines);
  return outlines.length > 0 ? { ...intent, focus: { ...focus, outlines } } : rest;
}

/** A recipe with the areas of its steps carried to the later picture. */
export function carryRecipe(pose: Pose, recipe: Recipe): Recipe {
  const steps = recipe.steps.map((step) =>
    step.area
      ? { ...step, area: { ...step.area, parts: step.area.parts.map((part) => carryPart(pose, part)) } }
      : step,
  );
  return { ...recipe, steps, ...(recipe.kept && { kept: carryAll(pose, recipe.kept) }) };
}

function carryPart(pose: Pose, part: AreaPart): AreaPart {
  if (part.kind === 'outline') return { ...part, outlines: carryAll(pose, part.outlines) };
  if (part.kind === 'gradient')
    return { ...part, from: toLater(pose, ...part.from), to: toLater(pose, ...part.to) };
  return part;
}

function carryAll(pose: Pose, outlines: readonly Outline[]): number[][] {
  return outlines.flatMap((outline) => {
    const carried = carryArea(pose, outline);
    return carried ? [carried] : [];
  });
}

/** Cuts an outline at the unit square, side by side. Source: Sutherland & Hodgman 1974. */
function clip(outline: number[]): number[] {
  let points = outline;
  for (const axis of [0, 1] as const)
    for (const sign of [1, -1] as const) {
      const out: number[] = [];
      // Distance to the side, positive inside: x or y from 0, or up to 1.
      const inside = (i: number): number => (sign === 1 ? points[i + axis] : 1 - points[i + axis]);
      for (let i = 0; i < points.length; i += 2) {
        const j = (i + 2) % points.length;
        const a = inside(i);
        const b = inside(j);
        if (a >= 0) out.push(points[i], points[i + 1]);
        if (a >= 0 === b >= 0) continue;
        const t = a / (a - b);
        const cut = [
          points[i] + t * (points[j] - points[i]),
          points[i + 1] + t * (points[j + 1] - points[i + 1]),
        ];
        cut[axis] = sign === 1 ? 0 : 1;
        out.push(cut[0], cut[1]);
      }
      points = out;
    }
  return points;
}
