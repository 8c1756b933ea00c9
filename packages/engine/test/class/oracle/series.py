"""Medians and outliers of numbers by NumPy and SciPy, for statistics.test.ts: writes series.json beside this file."""
import json
import os
import numpy as np
from scipy.stats import median_abs_deviation

rng = np.random.default_rng(9)
series = [
    [36.4, 35.1, 40.2, 33.0, 71.5, 38.8, 36.9],
    [5.0, 5.0, 5.0, 5.0, 9.0, 5.0],
    [2.0, 2.0, 2.0, 2.0, 2.0],
    np.round(rng.normal(50, 8, 31), 3).tolist() + [120.0, -40.0],
    np.round(rng.lognormal(0, 0.6, 40), 4).tolist(),
    [1.0, 9.0, 4.0, 100.0],
]
out = []
for values in series:
    v = np.array(values)
    mad = median_abs_deviation(v)
    scale = 1.4826 * mad if mad > 0 else 1.253314 * np.mean(np.abs(v - np.median(v)))
    score = (v - np.median(v)) / scale if scale > 0 else np.zeros(len(v))
    apart = np.flatnonzero(np.abs(score) > 3.5).tolist() if len(v) >= 5 else []
    out.append(
        {"values": values, "count": len(v), "median": float(np.median(v)), "low": float(v.min()),
         "high": float(v.max()), "mad": float(mad), "apart": apart}
    )
here = os.path.dirname(os.path.abspath(__file__))
with open(os.path.join(here, "series.json"), "w") as f:
    json.dump(out, f)
    f.write("\n")
