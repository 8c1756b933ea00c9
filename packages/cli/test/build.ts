import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));

/** Builds the command before its tests run. */
export default function build(): void {
  const { status } = spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-b', 'packages/cli'], {
    cwd: ROOT,
    stdio: 'inherit',
  });
  if (status !== 0) throw new Error('The command line could not be built.');
}
