"""Time of scikit-image's SLIC on a picture: python3 slic.py FILE WIDTH HEIGHT, the file being linear RGB as float32.

Prints the shortest of three rounds in milliseconds, on one core. Debian python3-skimage.
"""
import sys, time
import numpy as np
from skimage.segmentation import slic

path, width, height = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
linear = np.clip(np.fromfile(path, np.float32).reshape(height, width, 3), 0, 1)
code = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
best = np.inf
for _ in range(3):
    start = time.perf_counter()
    slic(code, n_segments=1800, compactness=12, start_label=0)
    best = min(best, time.perf_counter() - start)
print(1000 * best)
