import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { FARTHEST, layer, numbers, probabilitiesOf } from '../../../../src/readings/light/judge/network.ts';

const reference: {
  layers: { weights: number[]; biases: number[] }[];
  inputs: number[][];
  probabilities: number[][];
} = JSON.parse(readFileSync(new URL('network.json', import.meta.url), 'utf8'));

const network = {
  mean: new Float32Array(5),
  deviation: new Float32Array(5).fill(1),
  layers: reference.layers.map(({ weights, biases }) => ({
    weights: Float32Array.from(weights),
    biases: Float32Array.from(biases),
  })),
};

test('probabilities are those of scikit-learn’s MLPClassifier', () => {
  const found = probabilitiesOf(network, Float32Array.from(reference.inputs.flat()));
  reference.probabilities.flat().forEach((p, k) => {
    expect(found[k]).toBeCloseTo(p, 5);
  });
});

test('inputs are measured in deviations from their mean, and none counts as farther than the farthest', () => {
  const moved = {
    ...network,
    mean: new Float32Array(5).fill(2),
    deviation: new Float32Array(5).fill(0.5),
  };
  const far = probabilitiesOf(moved, new Float32Array(5).fill(2 + 0.5 * 100));
  expect([...far]).toEqual([...probabilitiesOf(network, new Float32Array(5).fill(FARTHEST))]);
});

test('base64 is read as RFC 4648 says (its test vectors, section 10)', () => {
  // "foobar" and "fooba", as weights of 8 bits at scale 1.
  const bytes = (text: string) => Float32Array.from(Buffer.from(text, 'latin1'));
  expect(layer(1, 'Zm9vYmFy', '').weights).toEqual(bytes('foobar'));
  expect(layer(1, 'Zm9vYmE=', '').weights).toEqual(bytes('fooba'));
  expect(layer(1, 'Zm9vYg==', '').weights).toEqual(bytes('foob'));
  // 1.5 in single precision is 3F C0 00 00 (IEEE 754), little-endian here.
  expect([...numbers(Buffer.from([0, 0, 0xc0, 0x3f]).toString('base64'))]).toEqual([1.5]);
});
