"""Oracle for phaseCorrelation.test.ts: scikit-image's phase_cross_correlation on a picture rolled by known shifts.

Needs NumPy and scikit-image. Prints the JSON that is kept as phaseCorrelation.json.
"""
import json
import numpy as np
from skimage.registration import phase_cross_correlation

N = 64
y, x = np.mgrid[:N, :N].astype(float)
picture = 50 + 20 * np.sin(x * 0.37 + 0.05 * y * y / 7) + 15 * np.cos(y * 0.23 - x * x * 0.011)
rows = []
for dx, dy in [(0, 0), (3, -5), (-7, 2), (12, 9), (-1, -11)]:
    moved = np.roll(picture, (dy, dx), (0, 1))
    shift, *_ = phase_cross_correlation(moved, picture, normalization='phase')
    rows.append({'roll': [dx, dy], 'shift': [float(shift[1]), float(shift[0])]})
print(json.dumps(rows))
