import { beforeAll, describe, expect, test } from 'vitest';
import { type App, house } from '../house/app.ts';
import { calm, folder, motley } from '../house/pictures.ts';
import { goTo, note, notesOf, openNote, openPicture } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);
const quiet = await files.picture('quiet.png', calm);
const app = house();

async function intentOf(picture: string): Promise<App['page']> {
  const { page } = await app.open();
  await openPicture(page, picture);
  await goTo(page, 'intent');
  return page;
}

/** Sentences of the open notes. */
const sentences = (page: App['page']): Promise<string[]> =>
  page.locator('.notes-part .note:not([data-note=place]) h3').allTextContents();

describe('mood', () => {
  let page: App['page'];
  beforeAll(async () => {
    page = (await app.open({ keep: true })).page;
    await openPicture(page, quiet);
    await goTo(page, 'intent');
  });

  test('words are chosen and blended, change the notes, and survive a reload', async () => {
    await page.getByRole('button', { name: 'feverish', exact: true }).click();
    await page.getByText('The mood is feverish.').waitFor();
    await goTo(page, 'check');
    await expect.poll(() => sentences(page)).not.toEqual([]);
    const found = await sentences(page);
    expect(found.join(' ')).toContain('feverish');
    await expect.poll(() => page.locator('.headline').textContent()).toContain('intent: feverish');
    await page.reload();
    await notesOf(page);
    await expect.poll(() => sentences(page)).toEqual(found);
    await goTo(page, 'intent');
    await page.getByRole('button', { name: 'feverish', exact: true }).click();
    await page.getByText('The mood is left open.').waitFor();
  });

  test('an axis is moved by keyboard and by pointer, and left open again', async () => {
    const key = page.getByRole('slider', { name: 'key', exact: true });
    await expect.poll(() => key.getAttribute('aria-valuetext')).toBe('left open');
    await key.focus();
    await page.keyboard.press('Home');
    await expect.poll(() => key.getAttribute('aria-valuetext')).toContain('the picture is lighter');
    await goTo(page, 'check');
    await expect.poll(() => sentences(page)).not.toEqual([]);
    await goTo(page, 'intent');
    const box = await key.boundingBox();
    if (!box) throw new Error('no slider');
    await page.mouse.click(box.x + box.width * 0.95, box.y + box.height / 2);
    await expect.poll(() => key.getAttribute('aria-valuetext')).toContain('the picture is darker');
    await page.getByRole('button', { name: 'leave open: key' }).click();
    await expect.poll(() => key.getAttribute('aria-valuetext')).toBe('left open');
  });

  test('a word keeps what was set by hand', async () => {
    const weight = page.getByRole('slider', { name: 'weight' });
    await weight.focus();
    await page.keyboard.press('End');
    await expect.poll(() => weight.getAttribute('aria-valuetext')).toContain('wanted');
    const set = (await weight.getAttribute('aria-valuetext'))?.split(' ')[0];
    await page.getByRole('button', { name: 'airy', exact: true }).click();
    await page.getByText('The mood is airy.').waitFor();
    expect((await weight.getAttribute('aria-valuetext'))?.split(' ')[0]).toBe(set);
  });
});

describe('hue plan', () => {
  test('families from the picture are planned; a stray is found against them', async () => {
    const page = await intentOf(ferry);
    await openNote(page, 'The hue plan is left open.');
    await page.getByRole('button', { name: 'Add a family' }).click();
    await page.getByText('One hue family is planned: blue.').waitFor();
    await goTo(page, 'check');
    await expect.poll(async () => (await sentences(page)).join(' ')).toMatch(/plan/);
  });

  test('arcs are drawn on the ring: begun, moved, widened', async () => {
    const page = await intentOf(ferry);
    await openNote(page, 'The hue plan is left open.');
    const ring = await page.locator('.hue-ring').boundingBox();
    if (!ring) throw new Error('no ring');
    const scale = ring.width / 272;
    const at = (degrees: number, radius: number): [number, number] => [
      ring.x + scale * (136 + radius * Math.cos((degrees * Math.PI) / 180)),
      ring.y + scale * (136 - radius * Math.sin((degrees * Math.PI) / 180)),
    ];
    await page.mouse.click(...at(150, 84));
    const hue = page.getByRole('spinbutton', { name: 'Hue of family 1' });
    await expect
      .poll(async () => Math.abs(Number(await hue.getAttribute('aria-valuenow')) - 150))
      .toBeLessThan(3);
    await page.mouse.move(...at(150, 72));
    await page.mouse.down();
    await page.mouse.move(...at(200, 72), { steps: 6 });
    await page.mouse.up();
    await expect
      .poll(async () => Math.abs(Number(await hue.getAttribute('aria-valuenow')) - 200))
      .toBeLessThan(4);
    await page.mouse.move(...at(225, 72));
    await page.mouse.down();
    await page.mouse.move(...at(245, 72), { steps: 6 });
    await page.mouse.up();
    const width = page.getByRole('spinbutton', { name: 'Width of family 1' });
    await expect
      .poll(async () => Math.abs(Number(await width.getAttribute('aria-valuenow')) - 70))
      .toBeLessThan(5);
    await page.getByRole('button', { name: /Undo changing the hue plan/ }).click();
    await expect.poll(() => width.getAttribute('aria-valuenow')).toBe('50');
  });

  test('values in the sentence are dragged, stepped and typed', async () => {
    const page = await intentOf(ferry);
    await openNote(page, 'The hue plan is left open.');
    await page.getByRole('button', { name: 'Add a family' }).click();
    const hue = page.getByRole('spinbutton', { name: 'Hue of family 1' });
    const box = await hue.boundingBox();
    if (!box) throw new Error('no value');
    await page.mouse.move(box.x + 5, box.y + 5);
    await page.mouse.down();
    await page.mouse.move(box.x + 45, box.y + 5, { steps: 5 });
    await page.mouse.up();
    await expect.poll(() => hue.getAttribute('aria-valuenow')).toBe('280');
    await hue.focus();
    await page.keyboard.press('Shift+ArrowDown');
    await expect.poll(() => hue.getAttribute('aria-valuenow')).toBe('270');
    await hue.click();
    await page.getByRole('textbox', { name: 'Hue of family 1' }).fill('30,4');
    await page.keyboard.press('Enter');
    await page.getByText('One hue family is planned: red.').waitFor();
    await hue.click();
    await page.getByRole('button', { name: 'Hue of family 1: more' }).click();
    await page.keyboard.press('Escape');
    await expect.poll(() => hue.getAttribute('aria-valuenow')).toBe('31');
  });
});

test('delivery and the one sentence are kept', async () => {
  const page = await intentOf(quiet);
  await openNote(page, 'The delivery is left open.');
  await page.getByLabel('It is handed over in').selectOption('display-p3');
  await page.getByRole('button', { name: 'name a size' }).click();
  await page.getByText('It is handed over in Display P3, 900 pixels long.').waitFor();
  await openNote(page, 'What one should feel is left open.');
  await page.getByLabel('Who sees it should feel').fill('that the last boat has left');
  await page.keyboard.press('Enter');
  await note(page, 'Who sees it should feel that the last boat has left').waitFor();
  await page.reload();
  await page.locator('.part-title').waitFor();
  await page.getByText('It is handed over in Display P3, 900 pixels long.').waitFor();
  await note(page, 'Who sees it should feel that the last boat has left').waitFor();
});
