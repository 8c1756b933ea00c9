"""Structural similarity by scikit-image, as the reference for ours.

Writes structuralSimilarity.json beside this file: pairs of small maps made from a formula, and the mean similarity by
skimage.metrics.structural_similarity with the window of Wang et al. 2004 (Gaussian, sigma 1.5, biased covariance).
Run: python3 structural_similarity.py
"""
import json
import pathlib

import numpy as np
import skimage
from skimage.metrics import structural_similarity


def first(width, height):
    y, x = np.mgrid[0:height, 0:width].astype(float)
    return 50 + 20 * np.sin(x / 5) + 15 * np.cos(y / 7) + (x * 7 + y * 13) % 11


def second(kind, a):
    y, x = np.mgrid[0 : a.shape[0], 0 : a.shape[1]].astype(float)
    if kind == "same":
        return a.copy()
    if kind == "lighter":
        return a + 12
    if kind == "flatter":
        return 50 + 0.4 * (a - 50)
    if kind == "three tones":
        return np.where(a < 40, 30.0, np.where(a < 60, 50.0, 72.0))
    if kind == "grain":
        return a + (x * 31 + y * 17) % 23 - 11
    if kind == "unrelated":
        return 50 + 25 * np.cos((x + y) / 3)


out = {"source": "scikit-image " + skimage.__version__, "range": 100, "pairs": []}
for width, height in [(40, 28), (11, 11), (23, 64)]:
    a = first(width, height)
    for kind in ["same", "lighter", "flatter", "three tones", "grain", "unrelated"]:
        s = structural_similarity(
            a, second(kind, a), data_range=100, gaussian_weights=True, sigma=1.5, use_sample_covariance=False
        )
        out["pairs"].append({"width": width, "height": height, "kind": kind, "ssim": round(float(s), 9)})
pathlib.Path(__file__).with_name("structuralSimilarity.json").write_text(json.dumps(out, indent=2) + "\n")
