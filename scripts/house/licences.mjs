import { readdirSync, readFileSync } from 'node:fs';
import { ROOT } from './run.mjs';

/** Packages whose libraries go out to people. */
const SHIPPED = ['engine', 'files', 'pages', 'cli', 'web'];
const LICENCE_FILE = /^(licen[cs]e|copying|notice|third-party-notices)[\w.-]*$/i;

const json = (file) => JSON.parse(readFileSync(ROOT + file, 'utf8'));

/** Where a package finds a library, as Node looks for it: from its own folder upwards. */
function find(packages, from, name) {
  for (let folder = from; ; folder = folder.replace(/\/?node_modules\/(@[^/]+\/)?[^/]+$|\/?[^/]+$/, '')) {
    const place = `${folder ? `${folder}/` : ''}node_modules/${name}`;
    if (packages[place]) return place;
    if (folder === '') return null;
  }
}

/** The libraries that are shipped, by the place they lie in, from the lock file. */
export function shippedLibraries(packages = json('package-lock.json').packages) {
  const found = new Map();
  const follow = (from, entry) => {
    const { dependencies, optionalDependencies, peerDependencies, peerDependenciesMeta: meta } = entry;
    const peers = Object.keys(peerDependencies ?? {}).filter((name) => !meta?.[name]?.optional);
    for (const name of [...Object.keys({ ...dependencies, ...optionalDependencies }), ...peers]) {
      const place = find(packages, from, name);
      if (place === null || found.has(place)) continue;
      const library = packages[place];
      if (library.link || name.startsWith('@types/')) continue;
      found.set(place, { name, ...library });
      follow(place, library);
    }
  };
  for (const name of SHIPPED) follow(`packages/${name}`, packages[`packages/${name}`]);
  return found;
}

/** The text of THIRD_PARTY.md. */
export function thirdParty() {
  const all = [...shippedLibraries()].sort(([, a], [, b]) =>
    a.name < b.name ? -1 : a.name > b.name ? 1 : 0,
  );
  const rows = all.map(
    ([place, { name, version, license }]) => `| ${name} | ${version} | ${license ?? licenceOf(place)} |`,
  );
  const texts = all
    // Optional ones are built for one kind of machine each: npm installs the one that fits.
    .filter(([, { optional }]) => !optional)
    .map(([place, { name, version }]) => `## ${name} ${version}\n\n${textsOf(place)}`);
  return `# Libraries of others in Halflight

Written by \`node scripts/licences.mjs\` from the lock file; a test holds it against what is installed. Only what is
shipped is listed: libraries for building and testing stay at home. The builds of sharp for other machines are listed
and not repeated: each brings its own text along (Apache-2.0, with libvips under LGPL-3.0-or-later, loaded as a
library of its own that can be replaced). The browser's decoder, wasm-vips, holds libvips and its libraries in a
WebAssembly file of its own; their licences stand in its notices below.

| library | version | licence |
|---|---|---|
${rows.join('\n')}

${texts.join('\n\n')}
`;
}

function licenceOf(place) {
  const { license, licenses } = json(`${place}/package.json`);
  return license ?? licenses?.map(({ type }) => type).join(' OR ') ?? firstLine(textsOf(place));
}

/** "MIT" of a text that begins with "MIT License". */
function firstLine(text) {
  return /^\s*(?:the )?(\S+) licen[cs]e\b/im.exec(text)?.[1] ?? 'see its text';
}

/** The licences as they lie in the library's folder, as blocks that Markdown leaves alone. */
function textsOf(place) {
  const folder = `${ROOT}${place}/`;
  const files = readdirSync(folder)
    .filter((name) => LICENCE_FILE.test(name))
    .sort();
  if (files.length === 0) return 'It brings no text of its own; its package names the licence above.';
  return files
    .map((name) => {
      const text = readFileSync(folder + name, 'utf8')
        .replaceAll('\r\n', '\n')
        .replace(/[ \t]+$/gm, '')
        .trim();
      return `${name}:\n\n${text.replace(/^(?=.)/gm, '    ')}`;
    })
    .join('\n\n');
}
