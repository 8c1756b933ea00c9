import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { halflight } from './commandLine.ts';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const PAGES = ['README.md', ...readdirSync(`${ROOT}docs`).map((page) => `docs/${page}`)].filter((page) =>
  page.endsWith('.md'),
);

/** Every call of the command in the examples of the house's pages: command and options. */
const CALLS = PAGES.flatMap((page) =>
  [...readFileSync(ROOT + page, 'utf8').matchAll(/^\s*(?:npx )?halflight ([a-z]+)(.*)$/gm)].map(
    ([, command, rest]) => [page, command, rest.replace(/ #.*/, '').match(/--[a-z-]+/g) ?? []] as const,
  ),
);

/** The help of a command, asked for once however many examples it has. */
const helps = new Map<string, ReturnType<typeof halflight>>();
function helpOf(command: string): ReturnType<typeof halflight> {
  const known = helps.get(command) ?? halflight([command, '--help']);
  helps.set(command, known);
  return known;
}

test('the pages have examples', () => {
  expect(CALLS.length).toBeGreaterThan(4);
});

test.each(CALLS)('%s: halflight %s %j is a call that exists', async (_, command, options) => {
  const { code, stdout } = await helpOf(command);
  expect(code).toBe(0);
  for (const option of options) expect(stdout).toContain(option);
});

test('the manual has a chapter for every command', async () => {
  const { stdout } = await halflight(['--help']);
  const commands = [...stdout.split(/Commands:|Example:/)[1].matchAll(/^ {2}([a-z]+) /gm)].map(
    (found) => found[1],
  );
  const chapters = [...readFileSync(`${ROOT}docs/cli.md`, 'utf8').matchAll(/^## (\w+)$/gm)].map((c) => c[1]);
  expect(commands).toContain('check');
  expect(commands.filter((command) => !chapters.includes(command))).toEqual([]);
});
