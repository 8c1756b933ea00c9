"""Oracle for mongeKantorovich.test.ts: the closed form of Pitié & Kokaram 2007 with SciPy's sqrtm.

Needs NumPy and SciPy. Prints the JSON that is kept as mongeKantorovich.json.
"""
import json
import numpy as np
from scipy.linalg import inv, sqrtm

rng = np.random.default_rng(2007)
rows = []
for _ in range(12):
    a, b = (m @ m.T * 10 ** rng.uniform(-4, 0) + 1e-6 * np.eye(3) for m in rng.normal(size=(2, 3, 3)))
    root = np.real(sqrtm(a))
    t = inv(root) @ np.real(sqrtm(root @ b @ root)) @ inv(root)
    rows.append({'a': a.ravel().tolist(), 'b': b.ravel().tolist(), 't': t.ravel().tolist()})
print(json.dumps(rows))
