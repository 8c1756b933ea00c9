"""Colourfulness of Hasler & Susstrunk 2003 computed independently with NumPy.

Writes colourfulness.json beside this file: small pictures made from a formula (so that the test can make the same
bytes) and the metric of each. Run: python3 colourfulness.py
"""
import json
import pathlib

import numpy as np


def picture(kind, width=64, height=48):
    """8-bit RGB; integer arithmetic only, so that any language gives the same bytes."""
    y, x = np.mgrid[0:height, 0:width].astype(np.int64)
    n = (x * 7919 + y * 104729 + (x * y) * 31 + 12345) % 1009  # a fixed grain, 0...1008
    if kind == "grey":
        v = (x * 3 + y + n % 9) % 256
        rgb = [v, v, v]
    elif kind == "dusk":
        rgb = [40 + x // 2 + n % 5, 50 + y + n % 7, 110 + y * 2 + n % 9]
    elif kind == "market":
        rgb = [(x * 11 + n) % 256, (y * 13 + n * 3) % 256, (x * 5 + y * 7 + n * 5) % 256]
    elif kind == "lamps":
        lamp = ((x % 16) < 3) & ((y % 16) < 3)
        rgb = [np.where(lamp, 240, 20 + n % 12), np.where(lamp, 170, 30 + n % 10), np.where(lamp, 60, 70 + n % 20)]
    return np.stack(rgb, axis=-1).astype(np.uint8)


def colourfulness(rgb):
    r, g, b = (rgb[..., i].astype(float) for i in range(3))
    rg = r - g
    yb = 0.5 * (r + g) - b
    return float(np.hypot(rg.std(), yb.std()) + 0.3 * np.hypot(rg.mean(), yb.mean()))


names = ["grey", "dusk", "market", "lamps"]
out = {
    "source": "Hasler & Susstrunk 2003, computed with NumPy " + np.__version__,
    "width": 64,
    "height": 48,
    "pictures": {
        n: {"sum": int(picture(n).astype(int).sum()), "colourfulness": round(colourfulness(picture(n)), 6)} for n in names
    },
}
pathlib.Path(__file__).with_name("colourfulness.json").write_text(json.dumps(out, indent=2) + "\n")
