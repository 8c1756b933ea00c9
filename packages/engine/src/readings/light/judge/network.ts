/** A small feed-forward network: layers of weights (inputs × outputs, row by row) and biases. */
export interface Network {
  /** Mean and deviation of each input on the pictures it was made from. */
  readonly mean: Float32Array;
  readonly deviation: Float32Array;
  readonly layers: readonly Layer[];
}

export interface Layer {
  readonly weights: Float32Array;
  readonly biases: Float32Array;
}

/** A layer from weights of 8 bits at a scale, and biases, both in base64. */
export function layer(scale: number, weights: string, biases: string): Layer {
  return {
    weights: Float32Array.from(new Int8Array(bytesOf(weights)), (v) => scale * v),
    biases: numbers(biases),
  };
}

/** Single precision numbers in base64, little-endian. */
export function numbers(base64: string): Float32Array {
  return new Float32Array(bytesOf(base64));
}

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Neither the browser's nor the command line's own decoder: the engine knows of none. */
function bytesOf(base64: string): ArrayBuffer {
  const digits = base64.replace(/=+$/, '');
  const out = new Uint8Array(Math.floor((digits.length * 3) / 4));
  let [bits, held, at] = [0, 0, 0];
  for (const digit of digits) {
    held = (held << 6) | DIGITS.indexOf(digit);
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    out[at++] = (held >> bits) & 255;
  }
  return out.buffer;
}

/** Inputs farther than this from their mean, in deviations, count as this far. */
export const FARTHEST = 4;

/**
 * Probabilities of the classes for each row of inputs: rectified layers, softmax at the end. Only sums, products and
 * exp, always in this order, so that the same rows give the same answer everywhere.
 */
export function probabilitiesOf(network: Network, inputs: Float32Array): Float64Array {
  const { mean, deviation, layers } = network;
  const width = mean.length;
  const classes = layers[layers.length - 1].biases.length;
  const rows = inputs.length / width;
  const out = new Float64Array(rows * classes);
  for (let r = 0; r < rows; r++) {
    let values = Float64Array.from(mean, (m, k) =>
      Math.min(FARTHEST, Math.max(-FARTHEST, (inputs[r * width + k] - m) / deviation[k])),
    );
    layers.forEach(({ weights, biases }, depth) => {
      const next = Float64Array.from(biases);
      const n = next.length;
      for (let k = 0; k < values.length; k++) {
        const v = values[k];
        if (v === 0) continue;
        for (let o = 0; o < n; o++) next[o] += v * weights[k * n + o];
      }
      if (depth < layers.length - 1) for (let o = 0; o < n; o++) next[o] = Math.max(0, next[o]);
      values = next;
    });
    const top = Math.max(...values);
    let sum = 0;
    for (let o = 0; o < classes; o++) sum += Math.exp(values[o] - top);
    for (let o = 0; o < classes; o++) out[r * classes + o] = Math.exp(values[o] - top) / sum;
  }
  return out;
}
