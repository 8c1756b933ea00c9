import { fillOutlines } from '../../areas/outline.ts';
import type { FocusIntent } from '../../intent/intent.ts';
import { blur } from '../../numbers/blur.ts';
import { type Plane, planeOf, stretch } from '../../numbers/plane.ts';
import { lightnessPlane } from '../../views/lightnessPlane.ts';
import type { View } from '../../views/view.ts';
import { spectralResidual } from './spectralResidual.ts';

// People look near the middle first (Judd, Ehinger, Durand, Torralba 2009, "Learning to predict where humans look");
// the width is our default, in shares of the sides.
const CENTRE_SIGMA = 0.3;

/** Share of the area that a predicted focus takes. */
const PREDICTED_SHARE = 0.12;

/**
 * Where the picture is looked at: as drawn by the artist, otherwise predicted. 0…1 at the size asked for.
 */
export function focusField(
  whole: View,
  drawn: FocusIntent | undefined,
  width: number,
  height: number,
): Plane {
  if (drawn && drawn.outlines.length > 0) return fillOutlines(drawn.outlines, width, height);
  const first = firstLook(whole);
  const limit = Float32Array.from(first.data).sort()[Math.floor((1 - PREDICTED_SHARE) * first.data.length)];
  return stretch(
    planeOf(first.width, first.height, (p) =>
      Math.min(1, Math.max(0, (first.data[p] / (limit || 1) - 0.8) / 0.4)),
    ),
    width,
    height,
  );
}

/**
 * The predicted first look: what the spectrum can't predict, where the whole view also has contrast, rather in the
 * middle than at the rim.
 * 64 × 64 places, largest value 1.
 */
export function firstLook(whole: View): Plane {
  const L = lightnessPlane(whole);
  const surprise = spectralResidual(L);
  const small = stretch(L, surprise.width, surprise.height);
  const ground = blur(small, 8);
  const contrast = blur(
    planeOf(small.width, small.height, (p) => Math.abs(small.data[p] - ground.data[p])),
    2.5,
  );
  const side = surprise.width;
  const both = planeOf(side, side, (p) => {
    const x = ((p % side) + 0.5) / side - 0.5;
    const y = (Math.floor(p / side) + 0.5) / side - 0.5;
    const middle = Math.exp((-0.5 * (x * x + y * y)) / CENTRE_SIGMA ** 2);
    return middle * Math.sqrt(surprise.data[p] * contrast.data[p]);
  });
  let most = 0;
  for (const v of both.data) most = Math.max(most, v);
  return planeOf(both.width, both.height, (p) => (most > 0 ? both.data[p] / most : 0));
}
