"""Makes the numbers of the light reading from what `npm run train:light -- DIR` gathered: fit.py DIR [weights.ts]

Prints the weights of the directions' signs (logistic regression, Newton's method) and how they do on scenes that were
left out; trains the network of the pieces (rectified layers, softmax, cross entropy, Adam after Kingma & Ba 2015,
dropout after Srivastava et al. 2014), prints precision and recall of its flags on scenes that were left out, then
trains it on all scenes and writes it. NumPy only; seeded.
"""
import base64
import glob
import json
import sys
import numpy as np

HIDDEN = (40, 20)
EPOCHS = 14
FOLDS = 4
WAYS = ('fit', 'agreed', 'strength', 'explained', 'share', 'oneSided', 'pairs')


def angle(a, b):
    c = (a['x'] * b['x'] + a['y'] * b['y']) / np.hypot(a['x'], a['y']) / np.hypot(b['x'], b['y'])
    return np.degrees(np.arccos(np.clip(c, -1, 1)))


def notes(folder):
    return [json.load(open(f)) for f in sorted(glob.glob(f'{folder}/*.json'))]


def folds(scenes):
    names = sorted(set(scenes))
    return np.array([names.index(s) % FOLDS for s in scenes])


# The directions.

def logistic(x, y, ridge=1.0):
    mean, deviation = x.mean(0), x.std(0)
    z = np.c_[(x - mean) / deviation, np.ones(len(x))]
    w = np.zeros(z.shape[1])
    hold = np.diag([ridge] * (z.shape[1] - 1) + [0])
    for _ in range(30):
        p = 1 / (1 + np.exp(-z @ w))
        w -= np.linalg.solve((z * (p * (1 - p))[:, None]).T @ z + hold, z.T @ (p - y) + hold @ w)
    return w[:-1] / deviation, w[-1] - (w[:-1] * mean / deviation).sum()


def directions(all_notes):
    pictures = [n for n in all_notes if n['how'] == 'read' and n['ways'] and n['ways'][0] and 'panels' not in n['name']]
    x = [[w['signs'][k] for k in WAYS] for n in pictures for w in n['ways'][0]]
    off = [angle(w['shift'], n['truth']) for n in pictures for w in n['ways'][0]]
    owner = np.repeat(np.arange(len(pictures)), [len(n['ways'][0]) for n in pictures])
    x, off = np.array(x), np.array(off)
    fold = folds([n['scene'] for n in pictures])[owner]
    p = np.zeros(len(x))
    for f in range(FOLDS):
        w, b = logistic(x[fold != f], off[fold != f] < 20)
        p[fold == f] = x[fold == f] @ w + b
    for least in (0.5, 0.6, 0.7, 0.8):
        best = [np.flatnonzero(owner == i)[np.argmax(p[owner == i])] for i in range(len(pictures))]
        said = [k for k in best if 1 / (1 + np.exp(-p[k])) >= least]
        clean = [k for k in said if pictures[owner[k]]['plant'] == 'clean']
        print(f'confidence {least}: stated {len(said)} of {len(pictures)}, over 60 degrees off {sum(off[k] > 60 for k in said)}'
              f' (clean {sum(off[k] > 60 for k in clean)} of {len(clean)}), over 20 {sum(off[k] > 20 for k in said)}')
    w, b = logistic(x, off < 20)
    print('bias', round(b, 3), {k: round(v, 3) for k, v in zip(WAYS, w)})


# The pieces.

def pieces(folder, all_notes):
    rows, truth, owner, used = [], [], [], []
    for n in all_notes:
        if n['said'] is None or n['truth'] is None or angle(n['said'], n['truth']) > 20:
            continue
        stem = f"{folder}/{n['name']}.{n['how']}"
        table = np.fromfile(f'{stem}.pieces.bin', np.float32)
        table = table.reshape(-1, SIGNS + 4)
        owner.append(np.full(len(table), len(used)))
        rows.append(table[:, :SIGNS])
        truth.append(table[:, SIGNS:])
        used.append(n)
    return np.concatenate(rows), np.concatenate(truth), np.concatenate(owner), used


class Network:
    def __init__(self, sizes, seed):
        self.draw = np.random.default_rng(seed)
        self.values = []
        for a, b in zip(sizes, sizes[1:]):
            self.values += [(self.draw.standard_normal((a, b)) * np.sqrt(2 / a)).astype(np.float32), np.zeros(b, np.float32)]
        self.first = [np.zeros_like(v) for v in self.values]
        self.second = [np.zeros_like(v) for v in self.values]
        self.steps = 0

    def run(self, x, drop=0.0):
        held, masks = [x], []
        for k in range(0, len(self.values) - 2, 2):
            h = np.maximum(held[-1] @ self.values[k] + self.values[k + 1], 0)
            mask = (self.draw.random(h.shape) >= drop).astype(np.float32) / (1 - drop) if drop else np.float32(1)
            masks.append(mask)
            held.append(h * mask)
        z = held[-1] @ self.values[-2] + self.values[-1]
        p = np.exp(z - z.max(1, keepdims=True))
        return p / p.sum(1, keepdims=True), held, masks

    def learn(self, x, y, weight, rate, drop=0.1, decay=1e-4):
        p, held, masks = self.run(x, drop)
        g = p
        g[np.arange(len(x)), y] -= 1
        g *= (weight / weight.sum())[:, None]
        slopes = [None] * len(self.values)
        for k in range(len(self.values) - 2, -1, -2):
            slopes[k] = held[k // 2].T @ g + decay * self.values[k]
            slopes[k + 1] = g.sum(0)
            if k:
                g = (g @ self.values[k].T) * masks[k // 2 - 1] * (held[k // 2] > 0)
        self.steps += 1
        for v, m, s, g in zip(self.values, self.first, self.second, slopes):
            m += 0.1 * (g - m)
            s += 0.001 * (g * g - s)
            v -= rate * (m / (1 - 0.9 ** self.steps)) / (np.sqrt(s / (1 - 0.999 ** self.steps)) + 1e-8)


def trained(x, y, weight, seed=0):
    network = Network((x.shape[1], *HIDDEN, 3), seed)
    for epoch in range(EPOCHS):
        order = network.draw.permutation(len(x))
        rate = 3e-3 * 0.5 * (1 + np.cos(np.pi * epoch / EPOCHS)) + 1e-5
        for a in range(0, len(x), 1024):
            k = order[a:a + 1024]
            network.learn(x[k], y[k], weight[k], rate)
    return network


def normal(x, mean, deviation):
    return np.clip((x - mean) / deviation, -4, 4).astype(np.float32)


def flags(p, truth, owner, used):
    for finish in ('plain', 'jitter', 'brush'):
        for how in ('read', 'declared'):
            line = f'{finish:7}{how:9}'
            for c, plant in ((1, 'neutral'), (2, 'opposite')):
                planted = np.array([n['plant'] == plant and n['finish'] == finish and n['how'] == how for n in used])[owner]
                clean = np.array([n['plant'] == 'clean' and n['finish'] == finish and n['how'] == how for n in used])[owner]
                pictures = max(1, sum(n['plant'] == 'clean' and n['finish'] == finish and n['how'] == how for n in used))
                for least in (0.5, 0.65, 0.8):
                    on = p[:, c] > least
                    right = truth[planted & on, c - 1].sum()
                    wrong = truth[planted & on][:, [3, 2 - c]].sum()
                    alarm = truth[clean & on].sum() / pictures / 10
                    line += f'  {plant} >{least}: P {right / max(1e-9, right + wrong):.3f} R {right / truth[planted, c - 1].sum():.3f} alarms {alarm:.2f} %'
            print(line)


def main(folder, out):
    global SIGNS
    all_notes = notes(folder)
    directions(all_notes)
    SIGNS = 69
    x, truth, owner, used = pieces(folder, all_notes)
    kind = np.where(truth[:, 0] > 0.5 * truth.sum(1), 1, np.where(truth[:, 1] > 0.5 * truth.sum(1), 2, 0))
    area = np.where(kind == 0, truth[:, 3], truth[:, 0] + truth[:, 1])
    weight = np.sqrt(area)
    on = area > 0
    mean, deviation = x[on].mean(0), x[on].std(0) + 1e-3
    z = normal(x, mean, deviation)
    fold = folds([n['scene'] for n in used])[owner]
    p = np.zeros((len(x), 3))
    for f in range(FOLDS):
        a = on & (fold != f)
        p[fold == f] = trained(z[a], kind[a], weight[a]).run(z[fold == f])[0]
    print(len(x), 'pieces of', len(used), 'pictures')
    flags(p, truth, owner, used)
    if out:
        write(out, mean, deviation, trained(z[on], kind[on], weight[on]))


def write(out, mean, deviation, network):
    code = lambda v, t: base64.b64encode(np.ascontiguousarray(v, t).tobytes()).decode()
    lines = []
    for k in range(0, len(network.values), 2):
        w, b = network.values[k], network.values[k + 1]
        scale = np.abs(w).max() / 127
        lines.append(f"    layer({scale:.6g}, '{code(np.round(w / scale), np.int8)}', '{code(b, np.float32)}'),")
    text = f"""import {{ layer, type Network, numbers }} from './network.ts';

/** Made by `bench/src/light/train/fit.py`; layers of {' × '.join(map(str, (len(mean), *HIDDEN, 3)))}. */
export const NETWORK: Network = {{
  mean: numbers('{code(mean, np.float32)}'),
  deviation: numbers('{code(deviation, np.float32)}'),
  layers: [
{chr(10).join(lines)}
  ],
}};
"""
    open(out, 'w').write(text)


main(sys.argv[1], sys.argv[2] if len(sys.argv) > 2 else None)
