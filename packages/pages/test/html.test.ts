import { HtmlValidate } from 'html-validate';
import { describe, expect, test } from 'vitest';
import { critiquePage, overviewPage, type Page, pageHtml, palettePage, reportPage } from '../src/index.ts';
import { critique, FACE, HOSTILE, overview, report } from './samples.ts';

/** Markup by html-validate's rules for the HTML standard and WCAG (html-validate:standard, a11y). */
const validator = new HtmlValidate({
  extends: ['html-validate:standard', 'html-validate:a11y'],
  rules: {
    // The pages are one file by purpose: their style and a few places stand inside.
    'no-inline-style': 'off',
    'long-title': 'off',
    'svg-focusable': 'off',
  },
});

const PAGES: [string, (text?: string) => Page][] = [
  ['own report', (text) => reportPage(report(text), 'own')],
  ['student’s report', (text) => reportPage(report(text), 'student')],
  ['client’s report', (text) => reportPage(report(text), 'client')],
  ['critique', (text) => critiquePage(critique(text))],
  ['overview', (text) => overviewPage(overview('shown', text))],
  ['palette', (text) => palettePage(text ?? 'Ferry landing', report(text).palette)],
];

describe.each(PAGES)('%s', (_, make) => {
  test('is valid HTML', async () => {
    const { results } = await validator.validateString(pageHtml(make(), FACE));
    expect(
      results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => `${ruleId}: ${message}`)),
    ).toEqual([]);
  });

  test('lets no markup of others through, and asks for nothing', async () => {
    const html = pageHtml(make(HOSTILE), FACE);
    expect(html).not.toMatch(/<script|<img src=x/i);
    expect(html).toContain('&lt;script&gt;');
    expect(html).toContain("default-src 'none'");
    // Addresses are inside the file, beside it, or names of namespaces.
    expect(html.replace(/xmlns="[^"]*"/g, '')).not.toMatch(/https?:\/\//);
    const { valid } = await validator.validateString(html);
    expect(valid).toBe(true);
  });
});

test('a client sees no findings, a student what to do and no numbers table', () => {
  const data = { ...report('Mine'), findings: [{ ...report().findings[0], text: 'A finding.' }] };
  expect(pageHtml(reportPage(data, 'client'), FACE)).not.toContain('A finding.');
  const student = pageHtml(reportPage(data, 'student'), FACE);
  expect(student).toContain('A finding.');
  expect(student).not.toContain('The numbers');
});

test('praise comes first, whatever the order it was said in', () => {
  const html = pageHtml(critiquePage(critique()), FACE);
  expect(html.indexOf('What is strong')).toBeLessThan(html.indexOf('What to work on'));
});

test.each([
  ['shown', 'Runa Birk', true],
  ['initials', 'R. B.', false],
  ['hidden', 'Work 1', false],
] as const)('names %s', (names, seen, whole) => {
  const html = pageHtml(overviewPage(overview(names)), FACE);
  expect(html).toContain(seen);
  expect(html.includes('Birk')).toBe(whole);
});

test('links stay beside the page', () => {
  const html = pageHtml(overviewPage(overview('shown')), FACE);
  expect(html).toContain('href="1%20a.html"');
  expect(html).not.toContain('javascript');
});

test('the strip of versions is told in numbers, to the artist only', () => {
  const told = (kind: 'own' | 'client'): string[] =>
    pageHtml(reportPage(report('Words'), kind), FACE).match(
      /<dt>version \d+: work[^<]*<\/dt><dd>[^<]+<\/dd>/g,
    ) ?? [];
  expect(told('own')).toHaveLength(report('Words').process!.points.length);
  expect(told('client')).toEqual([]);
});
