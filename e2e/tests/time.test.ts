import { expect, test } from 'vitest';
import { house } from '../house/app.ts';
import { folder, motley, paint } from '../house/pictures.ts';
import { note, notesOf, openNote, openPicture } from '../house/steps.ts';

const files = folder();
const DARKS = /Darks are closed/;

/** The same evening with its black corner lifted. */
const lifted = paint(900, 600, (x, y) => {
  const p = 3 * (Math.floor(y * 600) * 900 + Math.floor(x * 900));
  const [r, g, b] = motley.data.subarray(p, p + 3);
  return r + g + b === 0 ? [60, 64, 90] : [r, g, b];
});

const first = await files.picture('ferry.png', motley);
const second = await files.picture('ferry-2.png', lifted);
const app = house();

test('a work over time', async () => {
  const { page } = await app.open();
  await openPicture(page, first);
  await openNote(page, DARKS);
  await page.getByRole('button', { name: 'will do' }).click();
  await note(page, DARKS).getByText('You will do this').first().waitFor();

  // The same picture, further on, is the next version by itself, and says what became of what was meant.
  await openPicture(page, second);
  await page.getByText('You meant to do one thing: it is gone.').waitFor();
  expect(await page.locator('h1').textContent()).toBe('Ferry · version 2');
  await page.getByText(/Since version 1: from a distance \d+ % of the picture changed/).waitFor();
});
