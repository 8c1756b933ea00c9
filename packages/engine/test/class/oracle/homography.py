"""Projective maps by scikit-image, for homography.test.ts: writes homography.json beside this file."""
import json
import os
import numpy as np
from skimage.transform import ProjectiveTransform

rng = np.random.default_rng(4)
cases = []
for _ in range(6):
    start = np.array([[0, 0], [300, 0], [300, 200], [0, 200]], float)
    end = start + rng.uniform(-40, 40, (4, 2)) + 60
    t = ProjectiveTransform()
    t.estimate(start, end)
    m = t.params / t.params[2, 2]
    probes = rng.uniform(0, 200, (5, 2))
    cases.append({"from": start.tolist(), "to": end.tolist(), "matrix": m.ravel().tolist(),
                  "probes": probes.tolist(), "mapped": t(probes).tolist()})
here = os.path.dirname(os.path.abspath(__file__))
with open(os.path.join(here, "homography.json"), "w") as f:
    json.dump(cases, f)
    f.write("\n")
