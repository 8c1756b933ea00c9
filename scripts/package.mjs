// `npm run package`: one file that installs the command anywhere: `npm install -g .cache/package/halflight-….tgz`.
import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { buildApp, buildPackages } from './house/build.mjs';
import { npm, ROOT } from './house/run.mjs';

const OUT = `${ROOT}.cache/package/`;
const STAGE = `${OUT}halflight/`;

if ((await buildPackages()) !== 0 || (await buildApp()) !== 0) process.exit(1);
rmSync(OUT, { recursive: true, force: true });

const manifest = (name) => JSON.parse(readFileSync(`${ROOT}packages/${name}/package.json`, 'utf8'));
const house = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8'));
const cli = manifest('cli');
const inside = ['engine', 'files', 'pages'];

copy('packages/cli/bin', 'bin');
copy('packages/cli/dist', 'dist');
copy('packages/web/dist', 'app');
for (const name of inside) {
  copy(`packages/${name}/dist`, `node_modules/@halflight/${name}/dist`);
  // Without dependencies of their own: npm takes those of a bundled package for bundled as well.
  const { name: full, version, type, exports } = manifest(name);
  write(`node_modules/@halflight/${name}/package.json`, { name: full, version, type, exports });
}
const libraries = Object.assign({}, ...inside.map((name) => manifest(name).dependencies), cli.dependencies);
write('package.json', {
  name: 'halflight',
  version: cli.version,
  license: house.license,
  type: 'module',
  engines: house.engines,
  bin: cli.bin,
  files: ['bin', 'dist', 'app'],
  dependencies: libraries,
  bundleDependencies: inside.map((name) => `@halflight/${name}`),
});
process.exitCode = await npm(['pack', '--silent', '--pack-destination', OUT], { cwd: STAGE });

function copy(from, to) {
  cpSync(ROOT + from, STAGE + to, {
    recursive: true,
    filter: (file) => !/\.(tsbuildinfo|d\.ts|map)$/.test(file),
  });
}

function write(file, value) {
  writeFileSync(STAGE + file, `${JSON.stringify(value, null, 2)}\n`);
}
