"""The 34 pairs of Sharma, Wu & Dalal 2005, "The CIEDE2000 color-difference formula: implementation notes,
supplementary test data, and mathematical observations" (table 1), as scikit-image carries them in its tests.

Run: /usr/bin/python3 ciede2000.py > ciede2000.json (python3-skimage 0.19)
"""
import json
import os

import skimage.color

path = os.path.join(os.path.dirname(skimage.color.__file__), "tests", "ciede2000_test_data.txt")
rows = []
for line in open(path):
    if line.startswith("#") or not line.strip():
        continue
    v = [float(x) for x in line.split()]
    # pair, 1, L1 a1 b1 …, ΔE, 2, L2 a2 b2 …
    rows.append({"p": v[2:5], "q": v[17:20], "deltaE": v[15]})
assert len(rows) == 34
print("[\n" + ",\n".join("  " + json.dumps(r) for r in rows) + "\n]")
