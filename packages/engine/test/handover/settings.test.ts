import { describe, expect, test } from 'vitest';
import { fileName, nameTrouble } from '../../src/handover/fileName.ts';
import { PRESETS } from '../../src/handover/settings.ts';
import { checkSettings } from '../../src/handover/settingsSchema.ts';

describe('settings', () => {
  test('every preset passes its own check, and a file may hold only what differs', () => {
    for (const preset of Object.values(PRESETS))
      expect(checkSettings(preset)).toEqual({ ok: true, value: preset });
    const checked = checkSettings({ preset: 'print', size: { pixelsPerInch: 240 } });
    expect(checked).toMatchObject({
      ok: true,
      value: { format: 'tiff', size: { pixelsPerInch: 240, unit: 'mm' } },
    });
  });
  test.each([
    [[], 'braces'],
    [{ schema: 'halflight/handover@2' }, 'newer'],
    [{ schema: 'halflight/recipe@1' }, 'schema'],
    [{ preset: 'billboard' }, 'screen, print'],
    [{ size: { widht: 10 } }, 'size.width'],
    [{ size: { unit: 'mm' } }, 'pixelsPerInch'],
    [{ size: { fit: 'fill', width: null } }, 'width and a height'],
    [{ size: { fit: 'page', width: 100, height: 100, margin: 50 } }, 'margin'],
    [{ size: { ground: 'white' } }, '#ffffff'],
    [{ quality: 0 }, 'at least 1'],
    [{ depth: 12 }, 'depth'],
    [{ process: { seconds: 0.2 } }, 'at least 0.34'],
    [{ process: { sides: 300 } }, 'process.side'],
    [{ space: { profile: '' } }, 'space'],
    [{ preset: 'layered', size: { fit: 'within', width: 9 } }, 'layered'],
    [{ metadata: { keepLocation: true } }, 'keepOthers'],
    [{ name: '../{name}' }, 'every disk'],
    [{ name: '{nmae}' }, '{name}'],
    [{ name: 'CON' }, 'Windows'],
    [{ name: '.{name}' }, 'dot'],
    [{ name: ' ' }, 'needs a name'],
  ])('%j is refused: %s', (value, words) => {
    const checked = checkSettings(value);
    expect(checked.ok ? '' : checked.trouble).toContain(words);
  });
});

describe('names', () => {
  const words = { name: 'ferry', title: 'Dusk: 1/2', preset: 'print', width: 30, height: 20, number: 3 };
  test.each([
    ['{name} {width}x{height}', 'ferry 30x20'],
    ['{title}', 'Dusk- 1-2'],
    ['{number}. {preset}', '3. print'],
    ['{name}...', 'ferry'],
  ])('%s gives %s', (pattern, name) => {
    expect(nameTrouble(pattern)).toBeNull();
    expect(fileName(pattern, words)).toBe(name);
  });
  test.each(['../../etc', 'aux', '', '.hidden', 'a\nb', '-rf'])(
    'a picture called “%s” gets a safe name',
    (name) => {
      const safe = fileName('{name}', { ...words, name });
      expect(nameTrouble(safe)).toBeNull();
      expect(safe).not.toContain('/');
    },
  );
  test('long names are cut at whole letters', () => {
    const long = fileName('{name}', { ...words, name: 'ü'.repeat(400) });
    expect(new TextEncoder().encode(long).length).toBeLessThanOrEqual(180);
    expect(long).toMatch(/^ü+$/);
  });
});
