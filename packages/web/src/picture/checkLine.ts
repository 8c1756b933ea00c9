import type { PictureFacts } from '@halflight/engine';
import type { Seen } from './desk.ts';

/** A picture's readings and findings in the form of `halflight check --json` (schema halflight/check@1). */
export function checkLine({ name, width, height, depth, profile }: PictureFacts, seen: Seen): string {
  const readings = seen.readings.map(({ id, value, evidence }) => [
    id,
    { ...(value as object), evidence: evidence.level, evidenceReason: evidence.reason },
  ]);
  const findings = seen.findings.map(({ reading, severity, text, todo, key, number }) => ({
    reading,
    severity,
    text,
    todo,
    key,
    number,
  }));
  const picture = { name, width, height, depth, profile };
  return JSON.stringify(
    { schema: 'halflight/check@1', picture, readings: Object.fromEntries(readings), findings },
    short,
  );
}

/** Six digits are more than any reading is sure of. */
function short(_key: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(6)) : value;
}
