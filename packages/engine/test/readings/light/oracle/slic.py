"""Boundary recall of scikit-image's SLIC on a picture that is a formula; writes slic.json beside this file.

Debian python3-skimage. The same picture is painted in slic.test.ts.
"""
import json, pathlib
import numpy as np
import skimage
from skimage.segmentation import slic

W, H = 240, 180
y, x = np.mgrid[:H, :W].astype(float)
u = np.floor((x + 20 * np.sin(y / 15)) / 48).astype(int) + 1
v = np.floor((y + 12 * np.sin(x / 20)) / 45).astype(int) + 1
zone = 7 * v + u
ramp = np.round(6 * np.sin(x / 9 + y / 7))
code = np.stack([40 + (zone * m) % 160 + ramp for m in (37, 59, 83)], -1)


def edges(a):
    e = np.zeros(a.shape, bool)
    e[:, :-1] |= a[:, :-1] != a[:, 1:]
    e[:-1] |= a[:-1] != a[1:]
    return e


def recall(labels):
    truth, found = edges(zone), edges(labels)
    near = np.zeros_like(found)
    for j in range(-2, 3):
        for i in range(-2, 3):
            near |= np.roll(np.roll(found, j, 0), i, 1)
    return float((truth & near).sum() / truth.sum())


labels = slic(code / 255, n_segments=350, compactness=12, start_label=0)
out = {"scikit-image": skimage.__version__, "superpixels": int(labels.max() + 1), "recall": round(recall(labels), 4)}
pathlib.Path(__file__).with_suffix(".json").write_text(json.dumps(out, indent=2) + "\n")
print(out)
