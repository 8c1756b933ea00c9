import FFT from 'fft.js';

/**
 * Two-dimensional Fourier transforms over one size; both sides must be powers of two.
 *
 * Data are interleaved complex numbers, row-major, `2 × width × height`.
 */
export interface Fft2 {
  /** Spectrum of a real plane, `width × height` numbers. */
  forward(plane: ArrayLike<number>): Float64Array;
  /** Complex plane of a spectrum, scaled so that it undoes `forward`. */
  inverse(spectrum: Float64Array): Float64Array;
}

export function fft2(width: number, height: number): Fft2 {
  const rows = new FFT(width);
  const columns = new FFT(height);
  const pass = (data: Float64Array, back: boolean): Float64Array => {
    const out = new Float64Array(data.length);
    lines(data, out, rows, width, back, (line, i) => 2 * (line * width + i), height);
    lines(out, out, columns, height, back, (line, i) => 2 * (i * width + line), width);
    return out;
  };
  return {
    forward(plane) {
      const data = new Float64Array(2 * width * height);
      for (let p = 0; p < width * height; p++) data[2 * p] = plane[p];
      return pass(data, false);
    },
    inverse: (spectrum) => pass(spectrum, true),
  };
}

function lines(
  from: Float64Array,
  to: Float64Array,
  fft: FFT,
  n: number,
  back: boolean,
  at: (line: number, i: number) => number,
  count: number,
): void {
  const input = fft.createComplexArray();
  const output = fft.createComplexArray();
  for (let line = 0; line < count; line++) {
    for (let i = 0; i < n; i++) {
      input[2 * i] = from[at(line, i)];
      input[2 * i + 1] = from[at(line, i) + 1];
    }
    if (back) fft.inverseTransform(output, input);
    else fft.transform(output, input);
    for (let i = 0; i < n; i++) {
      to[at(line, i)] = output[2 * i];
      to[at(line, i) + 1] = output[2 * i + 1];
    }
  }
}
