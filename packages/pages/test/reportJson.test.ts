import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { reportJson } from '../src/index.ts';
import { report } from './samples.ts';

/** The published schema, which a validator for JSON Schema (draft 2020-12) reads. */
const published = JSON.parse(
  readFileSync(new URL('../../../docs/schemas/report-1.json', import.meta.url), 'utf8'),
);
const validator = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false, allErrors: true });

/** The schema without room for fields that it does not name: what is written has to be in it. */
function closed(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(closed);
  if (typeof schema !== 'object' || schema === null) return schema;
  const inner = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, closed(value)]));
  return 'properties' in schema && 'type' in schema ? { ...inner, additionalProperties: false } : inner;
}

const isValid = validator.compile(published);
const isExact = validator.compile({ ...(closed(published) as object), $id: 'closed' });
const written = () => JSON.parse(reportJson(report('Words')));

describe('a report as JSON', () => {
  test('is what its schema says, and says nothing that is not in it', () => {
    isExact(written());
    expect(isExact.errors).toBeNull();
  });
  test('without edit, versions and looks', () => {
    const { before: _, stages: __, process: ___, author: ____, ...bare } = report('Words');
    isExact(JSON.parse(reportJson({ ...bare, steps: [], looks: [], palette: [], findings: [] })));
    expect(isExact.errors).toBeNull();
  });
  test.each<[string, (json: ReturnType<typeof written>) => void]>([
    ['another schema', (json) => Object.assign(json, { schema: 'halflight/report@2' })],
    ['no title', (json) => delete json.title],
    ['a severity above 1', (json) => Object.assign(json.findings[0], { severity: 1.2 })],
    ['an unknown answer', (json) => Object.assign(json.findings[0].answer, { kind: 'maybe' })],
    ['a colour in words', (json) => Object.assign(json.palette[0], { hex: 'blue' })],
    ['a look of nobody', (json) => Object.assign(json.looks[0], { by: 'us' })],
    ['a place outside', (json) => Object.assign(json.findings[0].places[0], { x: 2 })],
    ['a date in words', (json) => Object.assign(json, { made: 'yesterday' })],
  ])('%s is refused', (_, change) => {
    const json = written();
    change(json);
    expect(isValid(json)).toBe(false);
  });
});
