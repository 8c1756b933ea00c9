// `import x from '…'`, `export … from '…'`, `import '…'` and `import('…')`, also over several lines.
const STATEMENT = /^\s*(?:import|export)\b[^'";]*?\bfrom\s*['"]([^'"]+)['"]/gm;
const BARE = /^\s*import\s*['"]([^'"]+)['"]/gm;
const CALL = /\bimport\(\s*['"]([^'"]+)['"]/g;

/** The modules that a source text imports, as they are written there. */
export function importsOf(source: string): string[] {
  return [STATEMENT, BARE, CALL].flatMap((pattern) => [...source.matchAll(pattern)].map((found) => found[1]));
}

/** Package of a module name: "@scope/name/entry" and "name/entry" without the entry. */
export function packageOf(module: string): string {
  return module
    .split('/')
    .slice(0, module.startsWith('@') ? 2 : 1)
    .join('/');
}
