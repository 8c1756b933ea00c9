import { spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';

/** The command as it stands in the checkout. */
export const COMMAND = fileURLToPath(new URL('../bin/halflight.js', import.meta.url));

export interface Ran {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * Runs the built command as a shell would, in an empty environment but for `env`.
 *
 * @param hearOut pieces of output after which its reader leaves, like `head`
 */
export function halflight(
  args: readonly string[],
  env: Record<string, string> = {},
  hearOut = Number.POSITIVE_INFINITY,
): Promise<Ran> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [COMMAND, ...args], { env: { PATH: process.env.PATH, ...env } });
    let stdout = '';
    let stderr = '';
    let heard = 0;
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
      if (++heard >= hearOut) child.stdout.destroy();
    });
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    child.once('close', (code) => resolve({ code: code ?? -1, stdout, stderr }));
  });
}

/** A new folder for one test file. */
export function newFolder(): string {
  return mkdtempSync(join(tmpdir(), 'halflight-'));
}

/** Writes a small dusk by sharp: a dark blue to orange gradient with a dark block in front. */
export async function paintDusk(path: string, width = 120, height = 80): Promise<void> {
  const data = Buffer.alloc(width * height * 3);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 3) {
      const block = x > width / 2 && y > height / 2;
      const t = y / height;
      data[i] = block ? 20 : 40 + 180 * t;
      data[i + 1] = block ? 22 : 50 + 70 * t;
      data[i + 2] = block ? 30 : 110 - 40 * t;
    }
  await sharp(data, { raw: { width, height, channels: 3 } }).toFile(path);
}
