import { beforeAll, describe, expect, test } from 'vitest';
import { type App, house } from '../house/app.ts';
import { folder, quarters } from '../house/pictures.ts';
import { goTo, openPicture } from '../house/steps.ts';

const files = folder();
const flat = await files.picture('quarters.png', quarters);
const tagged = await files.picture('p3.png', quarters, (image) =>
  image.withIccProfile('p3', { attach: true }),
);
const app = house();

/** The middle of a quarter on the page: column and row 0 or 1. */
async function spot(page: App['page'], column: number, row: number): Promise<[number, number]> {
  const box = await page.locator('.stage').boundingBox();
  if (!box) throw new Error('no stage');
  return [box.x + box.width / 2 + (column - 0.5) * 200, box.y + box.height / 2 + (row - 0.5) * 150];
}

// One page for the mouse and one for fingers: opening takes longer than what is tested here.
let desk: App;
let tablet: App;
beforeAll(async () => {
  desk = await app.open({ keep: true });
  await openPicture(desk.page, flat);
  tablet = await app.open({ keep: true, hasTouch: true, viewport: { width: 820, height: 1180 } });
  await openPicture(tablet.page, flat);
});

const place = (page: App['page']) => page.locator('.note[data-note=place]');

describe('a tap reads the place', () => {
  test.each([
    [0, 0, '#12c861', /green/i],
    [1, 0, '#777777', /^Neutral grey/],
    [0, 1, '#fa7814', /orange|red/i],
    [1, 1, '#1e2878', /blue/i],
  ])('quarter %d %d is %s', async (column, row, hex, words) => {
    const { page } = desk;
    await page.mouse.click(...(await spot(page, column, row)));
    await place(page).getByText(hex).waitFor();
    await expect.poll(() => place(page).locator('h3').textContent()).toMatch(words);
    await page.locator('.marks [data-mark=place]').waitFor({ state: 'attached' });
    await page.locator('.leader .line').first().waitFor({ state: 'attached' });
  });

  test('by finger', async () => {
    const { page } = tablet;
    const box = await page.locator('.stage').boundingBox();
    if (!box) throw new Error('no stage');
    await page.touchscreen.tap(box.x + box.width / 4, box.y + box.height / 3);
    await place(page).getByText('#12c861').waitFor();
    await place(page).getByRole('button', { name: 'Take the mark off' }).tap();
  });

  test('by keyboard: arrows move the mark, Enter reads', async () => {
    const { page } = desk;
    await place(page).getByRole('button', { name: 'Take the mark off' }).click();
    await page.keyboard.press('p');
    for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowLeft');
    for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Enter');
    await place(page).getByText('#fa7814').waitFor();
    await place(page).getByRole('button', { name: 'Take the mark off' }).click();
    await expect.poll(() => place(page).count()).toBe(0);
  });
});

test('the colour is copied by its button', async () => {
  const { page, context } = desk;
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.mouse.click(...(await spot(page, 0, 0)));
  await page.getByRole('button', { name: 'Copy #12c861' }).click();
  await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toBe('#12c861');
});

describe('moving and zooming', () => {
  const percent = async (page: App['page']): Promise<number> =>
    Number.parseInt((await page.locator('.nearness p').last().textContent()) ?? '', 10);

  test('by wheel, drag, keys and words', async () => {
    const { page } = desk;
    await expect.poll(() => percent(page)).toBe(100);
    const [x, y] = await spot(page, 0, 0);
    await page.mouse.move(x, y);
    await page.mouse.wheel(0, -600);
    await expect.poll(() => percent(page)).toBeGreaterThan(200);
    // The place under the pointer stays under it.
    await page.mouse.click(x, y);
    await place(page).getByText('#12c861').waitFor();
    await page.mouse.down();
    await page.mouse.move(x - 500, y, { steps: 4 });
    await page.mouse.up();
    await page.mouse.click(x, y);
    await place(page).getByText('#777777').waitFor();
    await page.keyboard.press('0');
    await expect.poll(() => percent(page)).toBe(100);
    await page.getByRole('button', { name: 'closer' }).click();
    await expect.poll(() => percent(page)).toBe(150);
    await page.getByRole('button', { name: 'whole' }).click();
    await expect.poll(() => percent(page)).toBe(100);
  });

  test('by two fingers', async () => {
    const { page, context } = tablet;
    const before = await percent(page);
    const touch = await context.newCDPSession(page);
    const send = (type: string, gap: number): Promise<unknown> =>
      touch.send('Input.dispatchTouchEvent', {
        type: type as 'touchStart',
        touchPoints:
          type === 'touchEnd'
            ? []
            : [
                { x: 400 - gap, y: 300, id: 0 },
                { x: 400 + gap, y: 300, id: 1 },
              ],
      });
    await send('touchStart', 40);
    for (let gap = 50; gap <= 120; gap += 10) await send('touchMove', gap);
    await send('touchEnd', 0);
    await expect.poll(() => percent(page)).toBeGreaterThan(before * 2);
    // Two fingers read nothing.
    await expect.poll(() => place(page).count()).toBe(0);
  });
});

test('is read in the picture’s own space', async () => {
  const { page } = desk;
  await goTo(page, 'shelf');
  await openPicture(page, tagged);
  const shown = await page.locator('.nearness').textContent();
  await page.mouse.click(...(await spot(page, 0, 0)));
  const label = await place(page).locator('dt').last().textContent();
  expect(shown).toContain(label?.replace('in ', '') ?? 'no label');
});
