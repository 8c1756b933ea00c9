"""Views of a made picture by other means: block means of an exact common multiple (NumPy) for the close view, and a
normalised Gaussian filter at full size (SciPy ndimage) read at the places of the whole view.

Run: /usr/bin/python3 views.py > views.json (NumPy 1.24, SciPy 1.10)
"""
import json

import numpy as np
from scipy.ndimage import gaussian_filter, map_coordinates


def codes(w, h, channels):
    y, x, c = np.mgrid[0:h, 0:w, 0:channels]
    return (x * 37 + y * 91 + c * 53 + x * y * 7) % 256


def linear(v):
    v = v / 255
    return np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)


def area(plane, cw, ch):
    """Every source place is cut into cw × ch equal parts: block means of whole numbers of parts are exact."""
    h, w = plane.shape
    rows = np.repeat(plane, ch, axis=0).reshape(ch, h, w).mean(axis=1)
    return np.repeat(rows, cw, axis=1).reshape(ch, cw, w).mean(axis=2)


def close(w, h, channels, cw, ch, limit):
    v = codes(w, h, channels)
    light = linear(v[..., :3])
    a = v[..., 3] / 255 if channels == 4 else np.ones((h, w))
    cover = area(a, cw, ch)
    rgb = np.stack([area(light[..., c] * a, cw, ch) / cover for c in range(3)], axis=-1)
    return {"width": w, "height": h, "channels": channels, "cw": cw, "ch": ch, "limit": limit,
            "rgb": [round(float(x), 7) for x in rgb.ravel()],
            "alpha": [round(float(x), 7) for x in cover.ravel()] if channels == 4 else None}


def scene(w, h):
    """A soft scene with an edge: code values 0…255."""
    y, x = np.mgrid[0:h, 0:w]
    v = 120 + 90 * np.sin(x / 40) * np.cos(y / 30) + 40 * (x > 0.6 * w)
    return np.floor(np.clip(v, 0, 255))


# Every fifth place of the whole view is written down.
STEP = 5


def whole(w, h, ww, wh):
    light = linear(scene(w, h))
    s = w / 80
    blur = gaussian_filter(light, s, mode="constant") / gaussian_filter(np.ones_like(light), s, mode="constant")
    ys = (np.arange(0, wh, STEP) + 0.5) * h / wh - 0.5
    xs = (np.arange(0, ww, STEP) + 0.5) * w / ww - 0.5
    at = np.meshgrid(ys, xs, indexing="ij")
    out = map_coordinates(blur, at, order=1, mode="nearest")
    return {"width": w, "height": h, "ww": ww, "wh": wh, "step": STEP, "light": [round(float(x), 6) for x in out.ravel()]}


print(json.dumps({
    "close": [close(37, 23, 3, 11, 7, 82), close(40, 24, 3, 10, 6, 60), close(37, 23, 4, 11, 7, 82),
              close(30, 20, 3, 26, 17, 465)],
    "whole": whole(800, 480, 160, 96),
}))
