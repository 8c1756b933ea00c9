import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: { readonly html: string; readonly failureSummary?: string }[];
}

/** Axe finds nothing on the page, by the rules of WCAG 2.2 A and AA and its own good practice. */
export async function expectClean(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  // Through the debugger: the page's policy lets no foreign script in, and that stays so.
  await session.send('Runtime.evaluate', { expression: `if (!window.axe) { ${AXE} }` });
  const violations = await page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(context: Document, options: object): Promise<{ violations: Violation[] }> };
    };
    return (await axe.run(document, { resultTypes: ['violations'] })).violations;
  });
  await session.detach();
  const list = violations.map(({ id, help, nodes }) => ({
    id,
    help,
    nodes: nodes.map(({ html, failureSummary }) => `${html.slice(0, 160)} | ${failureSummary}`),
  }));
  expect(list).toEqual([]);
}
