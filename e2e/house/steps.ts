import type { FileChooser, Page } from 'playwright-core';

/** Opens a picture with the file chooser and waits for its notes. */
export async function openPicture(page: Page, path: string | string[]): Promise<void> {
  await page.locator('input[type=file]').first().setInputFiles(path);
  if (typeof path === 'string') await notesOf(page);
}

/** Waits until the notes of the open picture stand. */
export async function notesOf(page: Page): Promise<void> {
  await page.locator('.notes-part[data-read]').waitFor();
}

/** The note whose sentence matches. */
export function note(page: Page, sentence: RegExp | string) {
  return page.locator('.note', { has: page.locator('h3 button', { hasText: sentence }) });
}

/** Opens a note by its sentence. */
export async function openNote(page: Page, sentence: RegExp | string): Promise<void> {
  await note(page, sentence).locator('h3 button').click();
}

/** What is read once it stays the same for a while: things fade in and out, for longer on a busy machine. */
export async function still<T>(read: () => Promise<T>): Promise<T> {
  let last = await read();
  for (let same = 0; same < 4; ) {
    await new Promise((done) => setTimeout(done, 100));
    const now = await read();
    same = JSON.stringify(now) === JSON.stringify(last) ? same + 1 : 0;
    last = now;
  }
  return last;
}

/** Goes to another screen of the open work. */
export async function goTo(page: Page, screen: 'check' | 'intent' | 'shelf'): Promise<void> {
  await page.evaluate((to) => {
    const work = location.hash.split('/').slice(0, 3).join('/');
    location.hash = to === 'shelf' ? '#/' : to === 'intent' ? `${work}/intent` : work;
  }, screen);
  await page
    .locator(screen === 'shelf' ? '.shelf, .empty' : screen === 'intent' ? '.part-title' : '.rest-part')
    .waitFor();
}

/** All numbers of the open picture, as the app gives them on its clipboard. */
export async function numbersOf(page: Page): Promise<Check> {
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.getByRole('button', { name: 'Copy all numbers' }).click();
  await page.getByText(', done.').waitFor();
  return JSON.parse(await page.evaluate(() => navigator.clipboard.readText())) as Check;
}

/** One line of `check --json`. */
export interface Check {
  readonly schema: string;
  readonly picture: { name: string; width: number; height: number; depth: number; profile: string };
  readonly readings: Record<string, Record<string, unknown>>;
  readonly findings: { reading: string; severity: number; text: string; todo: string; key: string }[];
}

/**
 * What an act makes the browser ask: which file? It is done again when nothing comes, since a browser opens a
 * chooser only shortly after a press, and a loaded machine may hand the press on too late.
 */
export async function chooserBy(page: Page, act: () => Promise<void>): Promise<FileChooser> {
  const coming = page.waitForEvent('filechooser');
  for (let tries = 1; tries < 4; tries++) {
    await act();
    const come = await Promise.race([coming, page.waitForTimeout(6000).then(() => null)]);
    if (come) return come;
  }
  return coming;
}
