import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { expectClean } from '../house/axe.ts';
import { folder, motley } from '../house/pictures.ts';
import { chooserBy, goTo, note, notesOf, openNote, openPicture } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);
const broken = files.bytes('broken.png', 'not a picture');
const app = house({ demo: { 'ferry-landing-1.png': ferry } });
const DARKS = /Darks are closed/;

/** Every state of every screen, reached one after the other. */
async function eachState(page: Page, look: (state: string) => Promise<void>): Promise<void> {
  await page.locator('.empty').waitFor();
  await look('empty shelf');
  await page.locator('input[type=file]').setInputFiles(broken);
  await page.getByRole('alert').waitFor();
  await look('a file that is no picture');
  await page.getByRole('button', { name: 'I have read it' }).click();
  await openPicture(page, ferry);
  await look('notes');
  await openNote(page, DARKS);
  await page.locator('.note[data-open] .details summary').click();
  await look('an open note with its numbers');
  await page.getByRole('button', { name: 'meant so' }).click();
  await look('asking for a reason');
  await page.keyboard.press('Enter');
  for (const group of await page.locator('.group > summary').all()) await group.click();
  await look('all groups open');
  const stage = await page.locator('.stage').boundingBox();
  if (stage) await page.mouse.click(stage.x + stage.width / 2, stage.y + stage.height / 2);
  await page.locator('.note[data-note=place] .place-read').waitFor();
  await look('a place that was read');
  await goTo(page, 'intent');
  await look('intent, mood open');
  await page.getByRole('button', { name: 'still', exact: true }).click();
  await page.locator('.axis[data-decided]').first().waitFor();
  await look('intent, mood decided');
  await openNote(page, 'The hue plan is left open.');
  await page.getByRole('button', { name: 'Add a family' }).click();
  await page.getByRole('button', { name: 'allow an accent' }).click();
  await page.getByRole('spinbutton', { name: 'Width of family 1' }).click();
  await look('intent, hue plan with a value being typed');
  await page.keyboard.press('Escape');
  await openNote(page, /delivery/);
  await look('intent, delivery');
  await openNote(page, /should feel|one should/);
  await look('intent, feeling');
  await page.keyboard.press('Escape');
  await page.evaluate(() => document.querySelector<HTMLDialogElement>('#help')?.showModal());
  await look('keys and cautions');
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await goTo(page, 'shelf');
  await look('shelf');
  await page.getByRole('button', { name: /off the shelf/ }).click();
  await page.getByRole('button', { name: 'Put it back' }).waitFor();
  await look('a work taken off');
}

/** Nothing is cut off or lies outside at any size. */
async function expectInside(page: Page, state: string): Promise<void> {
  // The last is 1440 × 900 at 200 %.
  const sizes = [
    [1024, 768],
    [820, 1180],
    [3840, 2160],
    [720, 450],
  ] as const;
  for (const [width, height] of sizes) {
    await page.setViewportSize({ width, height });
    const wide = await page.evaluate(async () => {
      for (let i = 0; i < 2; i++) await new Promise((next) => requestAnimationFrame(next));
      const reach = document.documentElement.scrollWidth - innerWidth;
      const out = [...document.querySelectorAll('.margin-body *, .shelf *')].filter((element) => {
        const box = element.getBoundingClientRect();
        return box.width > 1 && !element.closest('.unseen') && (box.right > innerWidth + 1 || box.left < -1);
      });
      return { reach, out: out.map((element) => element.outerHTML.slice(0, 120)) };
    });
    expect({ state, width, ...wide }).toEqual({ state, width, reach: 0, out: [] });
  }
  await page.setViewportSize({ width: 1440, height: 900 });
}

test('axe finds nothing in any state, and nothing is cut off or lies outside at any size', async () => {
  const { page } = await app.open();
  await eachState(page, async (state) => {
    await expectClean(page);
    await expectInside(page, state);
  });
}, 240_000);

describe('axe finds nothing', () => {
  test.each([
    ['820 × 1180, by touch', { viewport: { width: 820, height: 1180 }, hasTouch: true }],
    ['in forced colours', { viewport: { width: 1024, height: 768 }, forcedColors: 'active' as const }],
  ])(
    '%s',
    async (_name, options) => {
      const { page } = await app.open(options);
      await eachState(page, async () => expectClean(page));
    },
    240_000,
  );

  test('on every other wall, with every other ground of the notes', async () => {
    const { page } = await app.open();
    await page.locator('.empty').waitFor();
    await openPicture(page, ferry);
    for (const [wall, ground] of [
      ['dark', 'paper'],
      ['paper', 'dark'],
      ['paper', 'paper'],
    ]) {
      await page.evaluate((it) => localStorage.setItem('halflight.settings', JSON.stringify(it)), {
        wall,
        ground,
      });
      await page.reload();
      await notesOf(page);
      await openNote(page, DARKS);
      await expectClean(page);
    }
  });
});

test('a finger finds every control: at least 24 px, 44 px where it stands alone', async () => {
  const { page } = await app.open({ viewport: { width: 820, height: 1180 }, hasTouch: true });
  await openPicture(page, ferry);
  await openNote(page, DARKS);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('button, summary, input:not(.unseen)')]
      .filter((it) => (it as HTMLElement).offsetParent !== null)
      .map((it) => {
        const own = it.getBoundingClientRect().height;
        const more = getComputedStyle(it, '::after');
        const height = more.content === 'none' ? own : Math.max(own, Number.parseFloat(more.height));
        const least = it.matches('.answer, .note h3 button, input') ? 44 : 24;
        return { text: it.textContent, height, least };
      })
      .filter(({ height, least }) => height < least),
  );
  expect(small).toEqual([]);
});

test('with reduced motion nothing moves by itself', async () => {
  const { page } = await app.open({ reducedMotion: 'reduce' });
  await openPicture(page, ferry);
  await openNote(page, DARKS);
  await expect.poll(() => page.evaluate(() => document.getAnimations().length)).toBe(0);
  expect(
    await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--quick').trim()),
  ).toMatch(/^0m?s$/);
});

test('the whole way by keyboard alone', async () => {
  const { page } = await app.open();
  await page.locator('.empty').waitFor();
  const chooser = await chooserBy(page, () => page.keyboard.press('Control+o'));
  await chooser.setFiles(ferry);
  await notesOf(page);
  await note(page, DARKS).waitFor();

  // To the notes and through them.
  await page.keyboard.press('ArrowDown');
  while ((await page.evaluate(() => document.activeElement?.textContent))?.match(DARKS) === null) {
    await page.keyboard.press('ArrowDown');
  }
  await page.keyboard.press('Enter');
  await page.locator('.note[data-open] .answers').waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await note(page, DARKS).getByText('You will do this').first().waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('.note[data-open]').count()).toBe(0);

  // To the intent: a word, an axis, back.
  await page.keyboard.press('i');
  await page.locator('.part-title').waitFor();
  await page.getByRole('button', { name: 'serene' }).focus();
  await page.keyboard.press('Space');
  await page.locator('.axis[data-decided]').first().waitFor();
  await page.getByRole('slider', { name: 'warm and cool' }).focus();
  const before = await page.getByRole('slider', { name: 'warm and cool' }).getAttribute('aria-valuetext');
  await page.keyboard.press('ArrowRight');
  await expect
    .poll(() => page.getByRole('slider', { name: 'warm and cool' }).getAttribute('aria-valuetext'))
    .not.toBe(before);
  await page.keyboard.press('c');
  await notesOf(page);

  // The list of keys, and the shelf.
  await page.keyboard.press('?');
  await page.getByRole('dialog').waitFor();
  await page.keyboard.press('Escape');
  await page.keyboard.press('s');
  await page.locator('.row').waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await notesOf(page);
});

describe('on one page', () => {
  let page: Page;
  beforeAll(async () => {
    page = (await app.open({ keep: true })).page;
    await openPicture(page, ferry);
  });

  test('keys do nothing while one writes', async () => {
    await page.keyboard.press('Escape');
    await openNote(page, DARKS);
    await page.getByRole('button', { name: 'meant so' }).click();
    await page.keyboard.type('is icy? 0+1');
    await expect.poll(() => page.getByLabel('Meant so, because').inputValue()).toBe('is icy? 0+1');
    await expect.poll(() => page.locator('.part-title, dialog[open]').count()).toBe(0);
  });

  test('drawings say what they show', async () => {
    for (const group of await page.locator('.group > summary').all()) await group.click();
    for (const heading of await page.locator('.note h3 button').all()) {
      if ((await heading.getAttribute('aria-expanded')) === 'false') await heading.click();
      const drawing = page.locator('.note[data-open] .drawing');
      if (await drawing.count()) expect(await drawing.getAttribute('aria-label')).toMatch(/\S+ \S+.*\.$/);
    }
  });

  test('single keys can be switched off, and stay off', async () => {
    await page.keyboard.press('?');
    await page.getByLabel('Keys without Ctrl do something').uncheck();
    await page.keyboard.press('Escape');
    await page.reload();
    await notesOf(page);
    await page.keyboard.press('i');
    await page.keyboard.press('?');
    await expect.poll(() => page.locator('.part-title, dialog[open]').count()).toBe(0);
  });
});
