import type { Page } from 'playwright-core';
import { goTo, notesOf, openNote, openPicture } from './steps.ts';

/** The main screens, each reached from the one before; `main` are those that are held against their pictures. */
export async function eachScreen(
  page: Page,
  [first, second]: readonly [string, string],
  look: (state: string, main?: boolean) => Promise<void>,
): Promise<void> {
  await page.locator('.empty').waitFor();
  await look('empty', true);
  await openPicture(page, first);
  await look('check', true);
  await openNote(page, /Darks are closed/);
  await look('note', true);
  await goTo(page, 'intent');
  await page.getByRole('button', { name: 'melancholy' }).click();
  await page.locator('.axis[data-decided]').first().waitFor();
  await look('intent', true);
  await openNote(page, 'The hue plan is left open.');
  await page.getByRole('button', { name: 'take those the picture has' }).click();
  await look('hue plan');
  await page.keyboard.press('e');
  await page.getByRole('heading', { name: 'Edit' }).waitFor();
  await page.locator('.add-step').getByRole('button', { name: 'exposure', exact: true }).click();
  await page.locator('.step').first().waitFor();
  await page.getByText('The notes are read again once the edit rests.').waitFor({ state: 'detached' });
  await look('rework', true);
  await page.keyboard.press('l');
  await page.getByRole('button', { name: 'Begin the look' }).waitFor();
  await look('stand back', true);
  await page.keyboard.press('c');
  // What stands in the margin of the look goes with it: a file given to it too early is given to nobody.
  await page.getByRole('button', { name: 'Begin the look' }).waitFor({ state: 'detached' });
  await notesOf(page);
  await openPicture(page, second);
  await page.getByRole('heading', { level: 1, name: /· version 2$/ }).waitFor();
  await page.keyboard.press('v');
  await page.locator('.change-maps canvas').nth(1).waitFor();
  await look('progress', true);
  await page.keyboard.press('h');
  await page.getByRole('heading', { name: 'Hand over' }).waitFor();
  await page.locator('.note h3').nth(3).waitFor();
  await page.locator('.note h3 button').first().click();
  await look('hand over', true);
  await page.keyboard.press('s');
  await page.locator('.row').waitFor();
  await look('shelf');
  await page.evaluate(() => {
    location.hash = '#/class';
  });
  await page.locator('[data-heading]').waitFor();
  await look('class empty');
  await page.evaluate(() => {
    location.hash = '#/baseline';
  });
  await page.getByLabel('Finished works', { exact: true }).waitFor({ state: 'attached' });
  await look('baseline empty');
  await page.evaluate(() => {
    location.hash = '#/layers';
  });
  await page.getByText('Here hangs a picture that came in layers').waitFor();
  await look('thin out empty');
  await page.getByLabel('Layered file, or layers as PNGs').setInputFiles([first, second]);
  await page.getByRole('button', { name: 'weigh these layers' }).waitFor();
  await look('thin out pictures');
  await page.getByRole('button', { name: 'weigh these layers' }).click();
  await page.locator('[data-weighed]').waitFor();
  await page.locator('.tree-row').first().click();
  await look('thin out');
}
