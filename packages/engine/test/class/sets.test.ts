import { describe, expect, test } from 'vitest';
import { consistencyOf, seriesIntent } from '../../src/class/consistency.ts';
import { groupByFinding } from '../../src/class/grouping.ts';
import { namesInFile } from '../../src/class/names.ts';
import { seriesPlane } from '../../src/class/plane.ts';
import { towardsSeries } from '../../src/class/towards.ts';
import { seriesMeasures, strengthsOf, workOfLine } from '../../src/class/work.ts';
import { checkIntent } from '../../src/intent/schema.ts';
import { checkLine } from '../../src/readings/checkLine.ts';
import { examine } from '../../src/readings/examine.ts';
import { inputOf, PICTURES, paint } from '../readings/pictures.ts';

/** A picture's line, with the hand of another student: a little lighter or darker, or with all hues turned. */
function lineOf(painter: keyof typeof PICTURES, name: string, gain = 1, turn = 0): string {
  const raster = paint(96, 64, (x, y) => {
    const [L, chroma, hue] = PICTURES[painter](x, y);
    return [gain * L, gain * chroma, gain * hue + turn];
  });
  const input = inputOf(raster);
  const { readings, findings } = examine({ ...input, picture: { ...input.picture, name } });
  const plain = readings.map(({ id, reading: { value, evidence } }) => ({ id, value, evidence }));
  return checkLine({ picture: { ...input.picture, name }, readings: plain, findings }, raster.space);
}

const DUSKS = [0.94, 0.97, 1, 1.02, 1.04, 1.06].map((gain, k) => lineOf('dusk', `dusk-${k}.png`, gain));

describe('a work from its line', () => {
  test('has the numbers of the readings that can tell', () => {
    const work = workOfLine(DUSKS[2])!;
    const line = JSON.parse(DUSKS[2]);
    expect(work.name).toBe('dusk-2.png');
    expect(work.values['value.key']).toBe(line.readings.value.key);
    expect(work.values['headroom.endsShare']).toBeCloseTo(100 * line.readings.headroom.endsShare, 9);
    for (const name of Object.keys(work.values))
      expect(seriesMeasures().map((one) => one.name)).toContain(name);
    for (const [id, reading] of Object.entries<{ evidence: string }>(line.readings))
      if (reading.evidence === 'weak')
        expect(Object.keys(work.values).some((name) => name.startsWith(`${id}.`))).toBe(false);
  });

  test('is none when the picture could not be read', () => {
    expect(
      workOfLine('{"schema":"halflight/check@1","picture":{"name":"a.png"},"error":"It is empty."}'),
    ).toBeNull();
  });
});

describe('works side by side', () => {
  test('are grouped by what is found in them, the most shared first, each once', () => {
    const finding = (key: string, severity: number, text: string) => ({ key, severity, text, todo: 'Do.' });
    const groups = groupByFinding([
      { findings: [finding('a', 0.2, 'a little')] },
      { findings: [finding('b', 0.9, 'b'), finding('a', 0.8, 'a much'), finding('a', 0.1, 'a again')] },
    ]);
    expect(groups).toEqual([
      { key: 'a', text: 'a much', todo: 'Do.', works: [0, 1] },
      { key: 'b', text: 'b', todo: 'Do.', works: [1] },
    ]);
  });

  test('lie on a plane, and who stands alone is told', () => {
    const across = [1, 2, 3, 4, 5, 30, null];
    const up = [1, 2, 1, 2, 1, 40, 3];
    const { places, alone } = seriesPlane(across, up);
    expect(alone).toEqual([5]);
    expect(places[6]).toBeNull();
    for (const place of places)
      if (place) for (const v of [place.x, place.y]) expect(v > 0 && v < 1).toBe(true);
    expect(seriesPlane([1, 2, 3, 4, 5, 6], [1, 2, 3, 4, 5, 6]).alone).toEqual([]);
    expect(seriesPlane([1, 50], [1, 2]).alone).toEqual([]);
  });

  test('what is strong is said of surely seen things first, and never of what can’t be told', () => {
    const of = (fine: string | null, level: string) => ({ id: 'value' as const, fine, evidence: { level } });
    expect(strengthsOf([of('b', 'fair'), of('a', 'strong'), of('c', 'weak'), of(null, 'strong')])).toEqual([
      'a',
      'b',
    ]);
  });

  test.each([
    ['Ana Brook - Dusk.png', 'Ana Brook', 'Dusk'],
    ['ana_brook.jpeg', 'ana brook', ''],
    ['Tam – Low tide.tif', 'Tam', 'Low tide'],
  ])('%s tells whose it is', (file, who, title) => {
    expect(namesInFile(file)).toEqual({ who, title });
  });
});

describe('a series', () => {
  const works = (lines: readonly string[]) => lines.map((line) => workOfLine(line)!);

  test('that keeps together is left in peace', () => {
    expect(consistencyOf(works(DUSKS))).toMatchObject({ told: true, off: [] });
  });

  test('tells who falls out of it, and by what', () => {
    const { off } = consistencyOf(works([...DUSKS, lineOf('fog', 'fog.png')]));
    expect(off.length).toBeGreaterThan(0);
    expect([...new Set(off.map(({ work }) => work))]).toEqual([6]);
    expect(off.map(({ aspect }) => aspect)).toContain('key');
    for (const { text } of off) expect(text).toMatch(/series.*\.$/);
  });

  // The turn is planted in the painter's OKLCh hue; colours at the edge of the gamut lose a little of it.
  test.each([-90, 60, 120])('a work whose hues were turned by %i° is turned back towards it', (planted) => {
    const all = works([...DUSKS, lineOf('dusk', 'turned.png', 1, planted)]);
    expect(consistencyOf(all).off.filter(({ work }) => work === 6).length).toBeGreaterThan(0);
    const [step] = towardsSeries(all, 6)!.steps;
    expect(step.kind).toBe('hueTurn');
    expect(Math.abs(step.values.degrees + planted)).toBeLessThan(12);
    const back = works([...DUSKS, lineOf('dusk', 'back.png', 1, planted + step.values.degrees)]);
    expect(consistencyOf(back).off.filter(({ work, aspect }) => work === 6 && aspect === 'hue')).toEqual([]);
  });

  test('a darker work is exposed up towards it, and one that keeps to it is left alone', () => {
    const all = works([...DUSKS, lineOf('dusk', 'dark.png', 0.45)]);
    const steps = towardsSeries(all, 6)!.steps.filter(({ kind }) => kind === 'exposure');
    expect(steps).toHaveLength(1);
    expect(steps[0].values.stops).toBeGreaterThan(0.5);
    expect(towardsSeries(all, 2)).toBeNull();
  });

  test('of too few says nothing', () => {
    expect(consistencyOf(works(DUSKS.slice(0, 4)))).toMatchObject({ told: false, off: [] });
  });

  test('has in common what makes a whole intent', () => {
    const intent = seriesIntent(works(DUSKS));
    expect(checkIntent(JSON.parse(JSON.stringify(intent)))).toMatchObject({ ok: true });
    expect(intent.mood?.axes.key?.at).toBeGreaterThan(0);
    expect(intent.hue?.families.length).toBeGreaterThan(0);
  });
});
