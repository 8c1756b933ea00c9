"""Writes network.json: a small network of scikit-learn and the probabilities it gives, for network.test.ts."""
import json
import os
import warnings
import numpy as np
from sklearn.neural_network import MLPClassifier

warnings.filterwarnings('ignore')
rng = np.random.default_rng(4)
x = rng.uniform(-3, 3, (300, 5))
y = (x[:, 0] * x[:, 1] > 0).astype(int) + (x[:, 2] + 0.3 * x[:, 3] > 1)
net = MLPClassifier((7, 4), max_iter=60, random_state=1).fit(x, y)
layers = [{'weights': w.ravel().tolist(), 'biases': b.tolist()} for w, b in zip(net.coefs_, net.intercepts_)]
at = os.path.join(os.path.dirname(os.path.abspath(__file__)), 'network.json')
with open(at, 'w') as f:
    json.dump({'layers': layers, 'inputs': x[:20].tolist(), 'probabilities': net.predict_proba(x[:20]).tolist()}, f)
