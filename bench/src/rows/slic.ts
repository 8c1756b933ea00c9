import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { View } from '@halflight/engine';

/** The script stays beside the source: it isn't compiled. */
const SCRIPT = fileURLToPath(new URL('../../../bench/src/rows/slic.py', import.meta.url));

/** The one on the path may lack scikit-image, which Debian brings for its own. */
const PYTHONS = ['python3', '/usr/bin/python3'];

/**
 * Milliseconds that SLIC of scikit-image alone takes on a view, 1800 superpixels; null without Python or
 * scikit-image. What a reading of light takes is told against it, on whatever machine.
 */
export function scikitSlic({ width, height, rgb }: View): number | null {
  const folder = mkdtempSync(join(tmpdir(), 'halflight-slic-'));
  try {
    const file = join(folder, 'linear.f32');
    writeFileSync(file, new Uint8Array(rgb.buffer, rgb.byteOffset, rgb.byteLength));
    const env = { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' };
    for (const python of PYTHONS) {
      const { status, stdout } = spawnSync(python, [SCRIPT, file, `${width}`, `${height}`], {
        env,
        encoding: 'utf8',
      });
      const ms = Number.parseFloat(stdout);
      if (status === 0 && ms > 0) return ms;
    }
    return null;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
