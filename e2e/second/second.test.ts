import { writeFileSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import { folder, motley } from '../house/pictures.ts';
import { album } from '../house/seen.ts';
import { host } from '../house/server.ts';
import { type Driver, FIREFOX, firefox, WEBKIT, webkit } from './driver.ts';
import { walk } from './walk.ts';

const files = folder();
const ferry = await files.picture('ferry.png', motley);

const ENGINES: readonly [
  name: string,
  program: string | null,
  start: (program: string) => Promise<Driver>,
][] = [
  ['Firefox', FIREFOX, firefox],
  ['WebKit', WEBKIT, webkit],
];
for (const [name, program] of ENGINES)
  if (program === null) console.log(`${name} is not installed here: the main path was not walked in it.`);

/** How often a screen of WebKitGTK is looked at again. */
const LOOKS = 3;

describe.each(ENGINES)('%s', (name, program, start) => {
  let driver: Driver | null = null;
  afterAll(() => driver?.close());

  test.skipIf(program === null)('open, check, rework, export, reload', async () => {
    const server = await host({ demo: { 'ferry.png': ferry } });
    try {
      driver = await start(program!);
      const version = driver.name.replace(/^\D+/, '');
      // WebKitGTK counts its releases by the second number.
      const browser = name === 'WebKit' ? `webkitgtk-${version.split('.')[0]}` : 'firefox';
      const seen = album(browser, name === 'WebKit' ? version.split('.')[1] : version);
      const apart: string[] = [];
      if (!seen.known) console.log(`no pictures of ${driver.name}: its screens were not compared`);
      const walked = await walk(driver, server.address, async (stage, picture) => {
        const shots = process.env.SECOND_PICTURES;
        if (shots) writeFileSync(`${shots}/${browser}-${stage}.png`, picture);
        // WebKitGTK without a screen now and then leaves out parts of the first page until something changes in it.
        const partly = name === 'WebKit' && stage === 'start';
        if (!seen.known || partly) return;
        // Its scroll bar lies over the page and fades when it likes: another look, a little later, tells it apart.
        for (let look = 0, now = picture; ; look++) {
          const trouble = await seen.holdPicture(now, stage).catch((error: Error) => error.message);
          if (trouble === undefined) return;
          if (name !== 'WebKit' || look === LOOKS) return void apart.push(trouble);
          await new Promise((later) => setTimeout(later, 1500));
          now = await driver!.picture();
        }
      });
      expect(apart).toEqual([]);
      expect(walked.over).toEqual([]);
      if (process.env.SECOND_FIGURES) console.log(driver.name, JSON.stringify(walked, null, 1));
      expect(walked.notes.join(' ')).toMatch(/hues/);
      expect(walked.edit.join(' ')).toMatch(/Expose by/);
      if (!walked.isolated || !walked.lasting) {
        // What this browser lacks is said where it is met.
        expect(walked.exported.said).toMatch(/can’t write pictures without the full picture reader/);
        expect(walked.troubles.join(' ')).toMatch(/refused to keep/);
        return;
      }
      // The signature of PNG (ISO/IEC 15948, 5.2).
      expect(walked.exported.start).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
      expect(walked.exported.said).toMatch(/read back/);
      expect(walked.notesAfterReload).toEqual(walked.notes);
      expect(walked.editAfterReload).toEqual(walked.edit);
      expect(walked.troubles).toEqual([]);
    } finally {
      await server.close();
    }
  });
});
