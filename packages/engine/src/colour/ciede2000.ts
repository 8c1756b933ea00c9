import type { Triple } from './matrix.ts';

const RAD = Math.PI / 180;

/**
 * CIEDE2000 colour difference between two CIELAB colours, kL = kC = kH = 1.
 *
 * Source: ISO/CIE 11664-6; the steps follow Sharma, Wu, Dalal 2005, "The CIEDE2000 color-difference formula:
 * implementation notes, supplementary test data, and mathematical observations".
 */
export function ciede2000(p: Triple, q: Triple): number {
  const c7 = ((Math.hypot(p[1], p[2]) + Math.hypot(q[1], q[2])) / 2) ** 7;
  const g = 1 + 0.5 * (1 - Math.sqrt(c7 / (c7 + 25 ** 7)));
  const cp = Math.hypot(g * p[1], p[2]);
  const cq = Math.hypot(g * q[1], q[2]);
  const hp = hueOf(g * p[1], p[2]);
  const hq = hueOf(g * q[1], q[2]);

  const dL = q[0] - p[0];
  const dC = cq - cp;
  let dh = cp * cq === 0 ? 0 : hq - hp;
  if (dh > 180) dh -= 360;
  else if (dh < -180) dh += 360;
  const dH = 2 * Math.sqrt(cp * cq) * Math.sin((dh / 2) * RAD);

  const L = (p[0] + q[0]) / 2;
  const C = (cp + cq) / 2;
  let h = hp + hq;
  if (cp * cq !== 0) {
    if (Math.abs(hp - hq) <= 180) h /= 2;
    else h = h < 360 ? (h + 360) / 2 : (h - 360) / 2;
  }
  const t =
    1 -
    0.17 * Math.cos((h - 30) * RAD) +
    0.24 * Math.cos(2 * h * RAD) +
    0.32 * Math.cos((3 * h + 6) * RAD) -
    0.2 * Math.cos((4 * h - 63) * RAD);
  const sL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2);
  const sC = 1 + 0.045 * C;
  const sH = 1 + 0.015 * C * t;
  const big = C ** 7;
  const rT = -2 * Math.sqrt(big / (big + 25 ** 7)) * Math.sin(60 * Math.exp(-(((h - 275) / 25) ** 2)) * RAD);
  const l = dL / sL;
  const c = dC / sC;
  const hh = dH / sH;
  return Math.sqrt(l * l + c * c + hh * hh + rT * c * hh);
}

function hueOf(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const h = Math.atan2(b, a) / RAD;
  return h < 0 ? h + 360 : h;
}
