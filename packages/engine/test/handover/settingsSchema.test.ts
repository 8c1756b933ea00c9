import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { PRESETS } from '../../src/handover/settings.ts';
import { checkSettings } from '../../src/handover/settingsSchema.ts';

/** The published schema of a settings file, read by a validator for JSON Schema (draft 2020-12). */
const isValid = new Ajv2020({ allowUnionTypes: true }).compile(
  JSON.parse(readFileSync(new URL('../../../../docs/schemas/handover-1.json', import.meta.url), 'utf8')),
);

describe('a settings file', () => {
  test.each(Object.entries(PRESETS))('%s is valid, whole and in part', (preset, settings) => {
    expect(isValid(settings)).toBe(true);
    for (const [key, value] of Object.entries(settings)) expect(isValid({ preset, [key]: value })).toBe(true);
  });
  // What one of the two refuses the other refuses too, as far as one field is concerned.
  test.each([
    [{ schema: 'halflight/handover@2' }],
    [{ preset: 'billboard' }],
    [{ size: { fit: 'stretch' } }],
    [{ size: { width: 0 } }],
    [{ size: { width: '300' } }],
    [{ size: { unit: 'cm' } }],
    [{ size: { pixelsPerInch: 5 } }],
    [{ size: { enlarge: 'yes' } }],
    [{ size: { margin: -1 } }],
    [{ size: { ground: 'white' } }],
    [{ space: 'rec2020' }],
    [{ space: { profile: '' } }],
    [{ space: { profile: 'a.icc', intent: 'saturation' } }],
    [{ format: 'gif' }],
    [{ depth: 12 }],
    [{ quality: 0 }],
    [{ sharpen: 101 }],
    [{ metadata: { title: 3 } }],
    [{ metadata: { title: 'x'.repeat(2001) } }],
    [{ metadata: { keepOthers: 1 } }],
    [{ process: { side: 10 } }],
    [{ process: { side: 100.5 } }],
    [{ process: { seconds: 0.2 } }],
    [{ name: ' ' }],
    [{ name: 'x'.repeat(201) }],
  ])('%j is refused by schema and check alike', (value) => {
    expect(isValid(value)).toBe(false);
    expect(checkSettings(value).ok).toBe(false);
  });
  test.each([
    [{}],
    [{ size: { width: 100, height: null } }],
    [{ space: { profile: 'paper.icc' }, format: 'tiff' }],
    [{ metadata: { keepOthers: true, keepLocation: true } }],
    [{ note: 'mine' }],
  ])('%j is taken by both', (value) => {
    expect(isValid(value)).toBe(true);
    expect(checkSettings(value).ok).toBe(true);
  });
});
