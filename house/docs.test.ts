import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { houseFiles, ROOT } from './sources.ts';

const PAGES = houseFiles('*.md', 'docs/*.md', 'docs/**/*.md', 'packages/**/*.md', 'demo/**/*.md');
const SCRIPTS = Object.keys(JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8')).scripts);
// npm's own, where a script of the same name is run.
const SHORT = ['start', 'test'];

describe.each([...new Set(PAGES)])('%s', (page) => {
  const text = readFileSync(ROOT + page, 'utf8');

  test('links to files that are there', () => {
    const links = [...text.matchAll(/\]\(([^)\s]+)\)/g)]
      .map((found) => found[1].replace(/#.*$/, ''))
      .filter((link) => link !== '' && !/^[a-z]+:/.test(link));
    expect(links.filter((link) => !existsSync(join(ROOT, dirname(page), link)))).toEqual([]);
  });

  test('names npm scripts that are there', () => {
    const run = [...text.matchAll(/npm run ([\w:-]+)\b(?! -w)/g)].map((found) => found[1]);
    const short = SHORT.filter((name) => text.includes(`npm ${name}`));
    expect([...run, ...short].filter((name) => !SCRIPTS.includes(name))).toEqual([]);
  });
});

test('the readme says the job first, in one paragraph, then the two commands, then a picture', () => {
  const [job, commands] = readFileSync(`${ROOT}README.md`, 'utf8').split('\n\n');
  expect(job).toMatch(/^[A-Z]/);
  expect(job).not.toContain('\n');
  expect(commands).toMatch(/^```sh\nnpm start .*\nnpm test .*\n```$/);
});

test.each([
  ['README.md', /^docs\/[^/]+\.md$/, (page: string) => page],
  ['docs/guide.md', /^docs\/guide\/[^/]+\.md$/, (page: string) => page.slice('docs/'.length)],
])('%s leads to every page below it', (from, below, link) => {
  const text = readFileSync(ROOT + from, 'utf8');
  const pages = houseFiles('docs/*.md', 'docs/**/*.md').filter((page) => below.test(page));
  expect(pages.length).toBeGreaterThan(5);
  expect(pages.filter((page) => !text.includes(`(${link(page)})`))).toEqual([]);
});
