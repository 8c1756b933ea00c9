import type { Driver } from './driver.ts';

/** What was met on the main path. */
export interface Walked {
  readonly isolated: boolean;
  /** Whether works outlive the page in this browser. */
  readonly lasting: boolean;
  readonly notes: readonly string[];
  readonly edit: readonly string[];
  /** First bytes and size of the exported picture, and what the page said of it. */
  readonly exported: { readonly start: readonly number[]; readonly bytes: number; readonly said: string };
  readonly notesAfterReload: readonly string[];
  readonly editAfterReload: readonly string[];
  readonly troubles: readonly string[];
  /** What runs over the right edge of the margin, in any stage. */
  readonly over: readonly string[];
  readonly seconds: Readonly<Record<string, number>>;
}

/** Opens a picture, checks it, edits it, exports it and comes back after a reload; `look` sees every stage at rest. */
export async function walk(
  driver: Driver,
  address: string,
  look: (stage: string, picture: Buffer) => Promise<void>,
): Promise<Walked> {
  const over: string[] = [];
  const seconds: Record<string, number> = {};
  let last = performance.now();
  const lap = async (name: string): Promise<void> => {
    seconds[name] = Math.round((performance.now() - last) / 100) / 10;
    over.push(...(await driver.run(overEdge)).map((it) => `${name}: ${it}`));
    await look(name, await atRest(driver));
    last = performance.now();
  };
  const click = (name: string): Promise<void> => driver.run(press, name);

  await driver.open(address);
  await driver.run(appears, '.empty');
  await lap('start');
  await driver.run(givePicture, './demo/ferry.png', 'ferry.png');
  await driver.run(appears, '.notes-part[data-read]');
  const notes = await driver.run(texts, '.note h3');
  await lap('check');

  await driver.run(goTo, 'rework');
  await driver.run(appears, '.add-step');
  await driver.run(openDetails, '.add-step');
  await click('exposure');
  await driver.run(appears, '.canvas[data-sharp]');
  await driver.run(appears, '.after[data-rested]');
  const edit = await driver.run(texts, '.step-sentence');
  await lap('rework');

  const facts = await driver.run(factsOfPage);
  const exported = await driver.run(exportPicture);
  await lap('export');

  // Without shared memory nothing can be written, and without a store there is nothing to come back to.
  if (!facts.isolated || !facts.lasting) {
    const troubles = await driver.run(texts, '.troubles p');
    return {
      ...facts,
      notes,
      edit,
      exported,
      notesAfterReload: [],
      editAfterReload: [],
      troubles,
      over,
      seconds,
    };
  }
  await driver.open('about:blank');
  await driver.open(address);
  await driver.run(appears, '.row-open');
  await driver.run(pressFirst, '.row-open');
  await driver.run(appears, '.notes-part[data-read]');
  const notesAfterReload = await driver.run(texts, '.note h3');
  await driver.run(goTo, 'rework');
  await driver.run(appears, '.step-sentence');
  const editAfterReload = await driver.run(texts, '.step-sentence');
  await lap('reload');
  const troubles = await driver.run(texts, '.troubles p');
  return { ...facts, notes, edit, exported, notesAfterReload, editAfterReload, troubles, over, seconds };
}

/** A picture of the page once nothing moves in it any more. */
async function atRest(driver: Driver): Promise<Buffer> {
  await driver.run(calm);
  let before = await driver.picture();
  // Four in a row are the same: what was scaled or drawn by parts comes in late.
  for (let tries = 0, same = 1; tries < 40 && same < 4; tries++) {
    await new Promise((resolve) => setTimeout(resolve, 250));
    const now = await driver.picture();
    same = now.equals(before) ? same + 1 : 1;
    before = now;
  }
  return before;
}

/*
 * What follows runs in the page. Choosers of files can't be driven here: the picture is put into the origin-private
 * file system and handed to the page's own file input, and what is saved is caught where the page makes its address.
 */

async function appears(selector: string): Promise<void> {
  const end = Date.now() + 90_000;
  while (document.querySelector(selector) === null) {
    if (Date.now() > end) {
      const said = [...document.querySelectorAll('.troubles p')].map((it) => it.textContent).join(' ');
      throw new Error(`no ${selector}; the page says: ${said || document.body.textContent.slice(0, 400)}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** Without a focus to blink, from the top, and without what a machine's disk holds. */
async function calm(): Promise<void> {
  (document.activeElement as HTMLElement | null)?.blur();
  document.querySelector('.margin-body')?.scrollTo({ top: 0, behavior: 'instant' });
  for (const it of document.querySelectorAll<HTMLElement>('p'))
    if (/browser’s store holds/.test(it.textContent ?? '')) it.style.visibility = 'hidden';
  await document.fonts.ready;
}

function overEdge(): string[] {
  return [...document.querySelectorAll<HTMLElement>('.margin-body *')].flatMap((it) => {
    const { right, width } = it.getBoundingClientRect();
    const unseen = width <= 1 || it.closest('.unseen, svg, option') !== null;
    return unseen || right <= innerWidth + 1 ? [] : [it.outerHTML.slice(0, 90)];
  });
}

function texts(selector: string): string[] {
  return [...document.querySelectorAll(selector)].map((it) =>
    (it.textContent ?? '').replaceAll('\u00a0', ' '),
  );
}

async function givePicture(address: string, name: string): Promise<void> {
  const bytes = await (await fetch(address)).blob();
  let file = new File([bytes], name, { type: bytes.type });
  try {
    const root = await navigator.storage.getDirectory();
    const handle = await root.getFileHandle(name, { create: true });
    const stream = await handle.createWritable();
    await stream.write(bytes);
    await stream.close();
    file = await handle.getFile();
  } catch {
    // A browser without it gets the same file made in the page.
  }
  const input = document.querySelector<HTMLInputElement>('input[type=file]');
  const transfer = new DataTransfer();
  transfer.items.add(file);
  if (input === null) throw new Error('no file input');
  input.files = transfer.files;
  input.dispatchEvent(new Event('change', { bubbles: true }));
}

function goTo(screen: string): void {
  location.hash = `${location.hash.split('/').slice(0, 3).join('/')}/${screen}`;
}

function openDetails(selector: string): void {
  const details = document.querySelector<HTMLDetailsElement>(selector);
  if (details) details.open = true;
}

function press(name: string): void {
  const button = [...document.querySelectorAll('button')].find((it) => it.textContent?.trim() === name);
  if (!button) throw new Error(`no button “${name}”`);
  button.click();
}

function pressFirst(selector: string): void {
  document.querySelector<HTMLElement>(selector)?.click();
}

async function exportPicture(): Promise<{ start: number[]; bytes: number; said: string }> {
  Reflect.deleteProperty(window, 'showSaveFilePicker');
  const made: Blob[] = [];
  const make = URL.createObjectURL;
  URL.createObjectURL = (it: Blob) => {
    made.push(it);
    return make.call(URL, it);
  };
  const open = [...document.querySelectorAll('details')];
  for (const details of open) details.open = true;
  const button = [...document.querySelectorAll('button')].find((it) => it.textContent === 'save');
  if (!button) throw new Error('no button that saves');
  button.click();
  const end = Date.now() + 60_000;
  const said = (): string | undefined =>
    [...document.querySelectorAll('p, output')]
      .map((it) => it.textContent ?? '')
      .find((it) => /png” was saved|can’t write pictures/.test(it));
  while (said() === undefined) {
    if (Date.now() > end) throw new Error(`not saved: ${document.body.textContent.slice(-600)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  URL.createObjectURL = make;
  const blob = made.at(-1) ?? new Blob();
  const start = [...new Uint8Array(await blob.slice(0, 8).arrayBuffer())];
  return { start, bytes: blob.size, said: said() ?? '' };
}

async function factsOfPage(): Promise<{ isolated: boolean; lasting: boolean }> {
  const manager = navigator.storage as StorageManager | undefined;
  const root = await manager?.getDirectory().catch(() => null);
  return { isolated: crossOriginIsolated, lasting: root != null };
}
