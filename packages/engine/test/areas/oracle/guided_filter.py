"""Oracle for guidedFilter.test.ts: the colour guided filter of He, Sun, Tang 2010 written plainly, window by window.

Needs NumPy. Prints the JSON that is kept as guidedFilter.json.
"""
import json
import numpy as np

H, W, R, EPS = 11, 14, 2, 0.0004


def picture():
    """The same small picture as the test makes: no random numbers, so that both sides agree."""
    y, x = np.mgrid[:H, :W].astype(float)
    guide = np.stack([0.5 + 0.4 * np.sin(0.7 * x + 0.2 * y), 0.5 + 0.3 * np.cos(0.5 * y - 0.3 * x), (x + y) / (H + W)], -1)
    return guide, (x + 0.5 * y > 9).astype(float)


def window(i, n):
    return slice(max(0, i - R), min(n, i + R + 1))


guide, field = picture()
a = np.zeros((H, W, 3))
b = np.zeros((H, W))
for y in range(H):
    for x in range(W):
        g = guide[window(y, H), window(x, W)].reshape(-1, 3)
        p = field[window(y, H), window(x, W)].ravel()
        sigma = np.cov(g.T, bias=True) + EPS * np.eye(3)
        a[y, x] = np.linalg.solve(sigma, ((g - g.mean(0)) * (p - p.mean())[:, None]).mean(0))
        b[y, x] = p.mean() - a[y, x] @ g.mean(0)
out = np.zeros((H, W))
for y in range(H):
    for x in range(W):
        ys, xs = window(y, H), window(x, W)
        out[y, x] = a[ys, xs].reshape(-1, 3).mean(0) @ guide[y, x] + b[ys, xs].mean()
print(json.dumps({"width": W, "height": H, "radius": R, "epsilon": EPS, "result": [round(v, 9) for v in out.ravel()]}))
