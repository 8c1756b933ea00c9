"""Writes w3c.json: 10 000 seeded random pairs a mode, composited by the formulas of W3C Compositing and Blending
Level 1 (sections 5, 8.1, 9.1 and 9.2) in NumPy, on whole arrays and in premultiplied colour, where the TypeScript
goes pixel by pixel in straight colour. Of every hundred pairs the sum is kept: to five digits behind the point, it
tells a single pair that is off by a hundredth of a code value.

Run: python3 w3c.py > w3c.json
"""
import json, sys
import numpy as np

N = 10_000

def pairs(seed):
    # Numerical Recipes' linear congruential generator: the high byte of each state.
    x, out = np.uint64(seed), np.empty(8 * N, np.uint8)
    for i in range(8 * N):
        x = (x * np.uint64(1664525) + np.uint64(1013904223)) & np.uint64(0xFFFFFFFF)
        out[i] = x >> np.uint64(24)
    return out.reshape(N, 8) / 255.0

Lum = lambda C: C @ np.array([.3, .59, .11])
Sat = lambda C: C.max(1) - C.min(1)
def ClipColor(C):
    L, n, x = Lum(C)[:, None], C.min(1)[:, None], C.max(1)[:, None]
    with np.errstate(all='ignore'):
        C = np.where(n < 0, L + (C - L) * L / (L - n), C)
        C = np.where(x > 1, L + (C - L) * (1 - L) / (x - L), C)
    return C
SetLum = lambda C, l: ClipColor(C + (l - Lum(C))[:, None])
def SetSat(C, s):
    order = np.argsort(C, axis=1, kind='stable')
    S = np.take_along_axis(C, order, 1)
    lo, mid, hi = S.T
    span = np.where(hi > lo, hi - lo, 1)
    new = np.stack([0 * lo, np.where(hi > lo, (mid - lo) * s / span, 0), np.where(hi > lo, s, 0)], 1)
    out = np.empty_like(C)
    np.put_along_axis(out, order, new, 1)
    return out
multiply = lambda b, s: b * s
screen = lambda b, s: 1 - (1 - b) * (1 - s)
hard = lambda b, s: np.where(s <= .5, multiply(b, 2 * s), screen(b, 2 * s - 1))
def soft(b, s):
    D = np.where(b <= .25, ((16 * b - 12) * b + 4) * b, np.sqrt(b))
    return np.where(s <= .5, b - (1 - 2 * s) * b * (1 - b), b + (2 * s - 1) * (D - b))
def dodge(b, s):
    with np.errstate(all='ignore'):
        return np.where(b == 0, 0, np.where(s == 1, 1, np.minimum(1, b / (1 - s))))
def burn(b, s):
    with np.errstate(all='ignore'):
        return np.where(b == 1, 1, np.where(s == 0, 0, 1 - np.minimum(1, (1 - b) / s)))
BLEND = {
    'normal': lambda b, s: s, 'multiply': multiply, 'screen': screen, 'overlay': lambda b, s: hard(s, b),
    'darken': np.minimum, 'lighten': np.maximum, 'color-dodge': dodge, 'color-burn': burn, 'hard-light': hard,
    'soft-light': soft, 'difference': lambda b, s: abs(b - s), 'exclusion': lambda b, s: b + s - 2 * b * s,
    'hue': lambda b, s: SetLum(SetSat(s, Sat(b)), Lum(b)),
    'saturation': lambda b, s: SetLum(SetSat(b, Sat(s)), Lum(b)),
    'color': lambda b, s: SetLum(s, Lum(b)), 'luminosity': lambda b, s: SetLum(b, Lum(s)),
}
OPERATOR = {
    'clear': lambda s, b: (0 * s, 0 * s), 'copy': lambda s, b: (1 + 0 * s, 0 * s),
    'destination': lambda s, b: (0 * s, 1 + 0 * s), 'source-over': lambda s, b: (1 + 0 * s, 1 - s),
    'destination-over': lambda s, b: (1 - b, 1 + 0 * s), 'source-in': lambda s, b: (b, 0 * s),
    'destination-in': lambda s, b: (0 * s, s), 'source-out': lambda s, b: (1 - b, 0 * s),
    'destination-out': lambda s, b: (0 * s, 1 - s), 'source-atop': lambda s, b: (b, 1 - s),
    'destination-atop': lambda s, b: (1 - b, s), 'xor': lambda s, b: (1 - b, 1 - s),
    'lighter': lambda s, b: (1 + 0 * s, 1 + 0 * s),
}
def composite(p, blend, operator):
    b, ab, s, as_ = p[:, :3], p[:, 3:4], p[:, 4:7], p[:, 7:]
    Cs = (1 - ab) * s + ab * BLEND[blend](b, s)
    Fa, Fb = OPERATOR[operator](as_, ab)
    co = np.minimum(1, as_ * Fa * Cs + ab * Fb * b)
    ao = np.minimum(1, as_ * Fa + ab * Fb)
    return np.concatenate([co, ao], 1)

cases = [(m, 'source-over') for m in BLEND] + [('normal', o) for o in OPERATOR if o != 'source-over']
out = []
for k, (blend, operator) in enumerate(cases):
    sums = composite(pairs(k + 1), blend, operator).reshape(N // 100, 100, 4).sum(1)
    out.append({'blend': blend, 'operator': operator, 'seed': k + 1, 'sums': [round(float(v), 5) for v in sums.ravel()]})
json.dump(out, sys.stdout, separators=(',', ':'))
