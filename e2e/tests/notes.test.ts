import { beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type App, house } from '../house/app.ts';
import { folder, motley } from '../house/pictures.ts';
import { goTo, note, notesOf, openNote, openPicture, still } from '../house/steps.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);
const app = house();
const DARKS = /Darks are closed/;

/** Code values on the screen at a place of the picture (shares of width and height). */
async function screenAt(page: App['page'], x: number, y: number): Promise<number[]> {
  return page.evaluate(
    ([x, y, wide, high]) => {
      const canvas = document.querySelector<HTMLCanvasElement>('.canvas');
      if (!canvas) return [];
      // The picture stands in its own pixels, in the middle of the stage.
      const left = (canvas.width - wide) / 2;
      const top = (canvas.height - high) / 2;
      return [...(canvas.getContext('2d')?.getImageData(left + wide * x, top + high * y, 1, 1).data ?? [])];
    },
    [x, y, motley.width, motley.height],
  );
}

// One page for all: opening is tested elsewhere, and takes longer than what is tested here.
let page: App['page'];
beforeAll(async () => {
  page = (await app.open({ keep: true })).page;
  await openPicture(page, ferry);
  await note(page, DARKS).waitFor();
});
beforeEach(async () => {
  await page.mouse.move(2, 2);
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('.note[data-open]').count()).toBe(0);
});

describe('a note', () => {
  test('opens with number, drawing, what to do and three answers; only one is open', async () => {
    await openNote(page, DARKS);
    const body = note(page, DARKS).locator('.note-body');
    await expect.poll(() => body.locator('.number').textContent()).toMatch(/%/);
    await expect.poll(() => body.locator('.drawing').getAttribute('aria-label')).toMatch(/\w+ .*\.$/);
    await expect.poll(() => body.locator('.todo').textContent()).toMatch(/\.$/);
    await expect
      .poll(() => body.locator('.answers .answer').allTextContents())
      .toEqual(['will do', 'meant so', 'wrong']);
    await openNote(page, /hues?/);
    await expect.poll(() => page.locator('.note[data-open]').count()).toBe(1);
  });

  test('lays its map over the picture: places stay as painted, the rest fades towards the wall', async () => {
    // The map of the note before fades out for a while.
    await expect.poll(() => screenAt(page, 0.5, 0.9)).toEqual([0, 0, 0, 255]);
    const before = { dark: await screenAt(page, 0.5, 0.9), sky: await still(() => screenAt(page, 0.5, 0.1)) };
    await openNote(page, DARKS);
    await page.mouse.move(2, 2);
    await expect.poll(() => screenAt(page, 0.5, 0.1), { timeout: 20_000 }).not.toEqual(before.sky);
    await expect
      .poll(async () => (await screenAt(page, 0.5, 0.1))[2] - (await screenAt(page, 0.5, 0.1))[0])
      .toBeLessThan(before.sky[2] - before.sky[0]);
    const sky = await still(() => screenAt(page, 0.5, 0.1));
    const after = { dark: await screenAt(page, 0.5, 0.9), sky };
    expect(after.dark).toEqual(before.dark);
    // Towards the wall (119), and still bluer than red: the hue is kept.
    for (const c of [0, 1, 2])
      expect(Math.abs(after.sky[c] - 119)).toBeLessThan(Math.abs(before.sky[c] - 119));
    expect(after.sky[2]).toBeGreaterThan(after.sky[0]);
  });

  test('has its places outlined and a line to them', async () => {
    await openNote(page, DARKS);
    await page.locator('.marks .line').first().waitFor({ state: 'attached' });
    await page.locator('.leader .line').first().waitFor({ state: 'attached' });
    // The line's box is as wide as its stroke.
    await expect
      .poll(async () => {
        const line = await page.locator('.leader .line').first().boundingBox();
        const margin = await page.locator('.margin').boundingBox();
        return Math.abs((line?.x ?? 0) + (line?.width ?? 0) - (margin?.x ?? 0));
      })
      .toBeLessThan(3);
  });

  test('lights up when its place is pointed at', async () => {
    await openNote(page, DARKS);
    await page.locator('.marks .line').first().waitFor({ state: 'attached' });
    await openNote(page, DARKS);
    const stage = await page.locator('.stage').boundingBox();
    if (!stage) throw new Error('no stage');
    await page.mouse.move(stage.x + stage.width / 2, stage.y + stage.height / 2 + 0.4 * motley.height);
    await page.locator('.note[data-lit]', { hasText: DARKS }).waitFor();
  });
});

describe('the answers', () => {
  /** The answer is taken back, so that the next test meets the note as it was. */
  async function undone(): Promise<void> {
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+z');
    await page.locator('.notes-part .note', { hasText: DARKS }).waitFor();
    await expect.poll(() => page.getByText('You will do this').count()).toBe(0);
  }

  test('will do: the note stays and says so, also after a reload', async () => {
    await openNote(page, DARKS);
    await page.getByRole('button', { name: 'will do', exact: true }).click();
    await note(page, DARKS).getByText('You will do this').first().waitFor();
    await page.reload();
    await notesOf(page);
    await note(page, DARKS).getByText('You will do this').first().waitFor();
    await undone();
  });

  test('meant so: with a reason the note is settled, also after a reload, until it is taken back', async () => {
    await openNote(page, DARKS);
    await page.getByRole('button', { name: 'meant so', exact: true }).click();
    await page.getByLabel('Meant so, because').fill('the water is black at night');
    await page.keyboard.press('Enter');
    await page.locator('summary', { hasText: 'is answered' }).waitFor();
    await page.reload();
    await notesOf(page);
    await page.locator('summary', { hasText: 'One note is answered' }).click();
    await note(page, DARKS).getByText('because the water is black at night').first().waitFor();
    await openNote(page, DARKS);
    await page.getByRole('button', { name: 'Take that back' }).click();
    await page.locator('.notes-part .note', { hasText: DARKS }).waitFor();
    await expect.poll(() => page.locator('summary', { hasText: 'answered' }).count()).toBe(0);
  });

  test('wrong, altogether: the note is settled', async () => {
    await openNote(page, DARKS);
    await page.getByRole('button', { name: 'wrong', exact: true }).click();
    const altogether = page.getByRole('button', { name: 'altogether' });
    if (await altogether.count()) await altogether.click();
    await page.locator('summary', { hasText: 'One note is answered' }).waitFor();
    await undone();
  });

  test('wrong at the places shown: they are left out, and the finding is gone or smaller', async () => {
    await openNote(page, DARKS);
    await page.locator('.marks .line').first().waitFor({ state: 'attached' });
    const before = await note(page, DARKS).locator('.number').textContent();
    await page.getByRole('button', { name: 'wrong', exact: true }).click();
    await page.getByRole('button', { name: /at the places? shown/ }).click();
    await expect
      .poll(async () => (await note(page, DARKS).locator('.number').allTextContents())[0] ?? 'gone')
      .not.toBe(before);
    await undone();
  });

  test('are undone and redone, also after a reload', async () => {
    await openNote(page, DARKS);
    await page.getByRole('button', { name: 'will do', exact: true }).click();
    const said = note(page, DARKS).getByText('You will do this');
    await said.first().waitFor();
    await page.reload();
    await notesOf(page);
    await page.getByRole('button', { name: 'Undo answering “will do”' }).click();
    await expect.poll(() => said.count()).toBe(0);
    await page.keyboard.press('Control+Shift+z');
    await said.first().waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(() => said.count()).toBe(0);
  });
});

test('the sentence at the end leads to intent, shelf and back', async () => {
  const way = page.getByRole('navigation', { name: 'The way around' });
  await way.getByRole('button', { name: 'Nothing is decided yet' }).click();
  await page.locator('.part-title').waitFor();
  await way.getByRole('button', { name: /notes? (is|are) open/ }).click();
  await note(page, DARKS).waitFor();
  await way.getByRole('button', { name: 'the shelf' }).click();
  await page.locator('.row').waitFor();
  await page.goBack();
  await notesOf(page);
});

test('cautions are said once', async () => {
  await page.getByRole('button', { name: 'Understood' }).click();
  await page.reload();
  await notesOf(page);
  await expect.poll(() => page.locator('.cautions').count()).toBe(0);
});

test('wall and ground are chosen and kept', async () => {
  await page.getByRole('button', { name: 'middle grey' }).click();
  await page.getByRole('button', { name: 'dark grey' }).last().click();
  await page.reload();
  await notesOf(page);
  await expect
    .poll(() => page.evaluate(() => ({ ...document.documentElement.dataset })))
    .toEqual({ wall: 'dark', ground: 'paper' });
});

test('every reading can be looked at, also when it is fine', async () => {
  for (const group of await page.locator('.rest-part .group > summary').all()) await group.click();
  const names = page.locator('.rest-part .note h3 button');
  for (const name of await names.all()) {
    await name.click();
    await page.locator('.note[data-open] .details summary').click();
    await expect.poll(() => page.locator('.note[data-open] .details').textContent()).toContain('How sure');
  }
  await goTo(page, 'shelf');
});
