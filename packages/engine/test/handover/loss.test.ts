import { describe, expect, test } from 'vitest';
import { DISPLAY_P3, SRGB } from '../../src/colour/rgbSpaces.ts';
import { readyRecipe } from '../../src/edits/compile.ts';
import { editView } from '../../src/edits/editView.ts';
import { calmLoss, LEFT_OVER } from '../../src/handover/calm.ts';
import { gamutLook, viewInSpace } from '../../src/handover/gamutLook.ts';
import { makeCloseView } from '../../src/views/average.ts';
import { raster } from './rasters.ts';

describe('what a space loses', () => {
  // A picture in Display P3, a quarter of it outside sRGB.
  const wide = raster(48, 48, (x, y) => (x < 24 && y < 24 ? [0.1, 0.95, 0.1] : [0.4, 0.45, 0.5]), DISPLAY_P3);
  const view = makeCloseView(wide);
  test('its share, its place, and the picture as it will be', () => {
    const look = gamutLook(view, viewInSpace(view, SRGB));
    expect(look.share).toBeCloseTo(0.25, 6);
    expect(look.map.data[0]).toBe(1);
    expect(look.map.data[40]).toBe(0);
    for (const v of look.shown.rgb) expect(v).toBeGreaterThanOrEqual(-1e-6);
    expect(gamutLook(view, viewInSpace(view, DISPLAY_P3)).share).toBe(0);
  });
  test('a step calms what is lost, and little else', async () => {
    const calm = await calmLoss(view, DISPLAY_P3, (v) => gamutLook(v, viewInSpace(v, SRGB)));
    expect(calm.enough).toBe(true);
    expect(calm.after).toBeLessThan(LEFT_OVER);
    const edited = editView(
      readyRecipe({ schema: 'halflight/recipe@1', steps: calm.steps }, view),
      view,
      DISPLAY_P3,
    );
    expect(gamutLook(edited, viewInSpace(edited, SRGB)).share).toBeLessThan(LEFT_OVER);
    // The greyed corner that nothing was lost of.
    const last = edited.rgb.length - 3;
    for (let c = 0; c < 3; c++) expect(edited.rgb[last + c]).toBeCloseTo(view.rgb[last + c], 2);
  });
  test('nothing lost needs no step', async () => {
    const calm = await calmLoss(view, DISPLAY_P3, (v) => gamutLook(v, viewInSpace(v, DISPLAY_P3)));
    expect(calm).toEqual({ steps: [], before: 0, after: 0, enough: true });
  });
});
