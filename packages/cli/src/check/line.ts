import type { Looked } from './look.ts';
import type { Outcome } from './outcome.ts';

/** One line of `check --json`: the schema is a contract with scripts and only ever gains fields. */
export function lineOf(outcome: Outcome): string {
  return JSON.stringify('looked' in outcome ? found(outcome.looked) : failed(outcome), short);
}

const SCHEMA = 'halflight/check@1';

function found({ picture, readings, findings }: Looked): object {
  const { name, width, height, depth, profile } = picture;
  return {
    schema: SCHEMA,
    picture: { name, width, height, depth, profile },
    readings: Object.fromEntries(
      readings.map(({ id, value, evidence }) => [
        id,
        { ...(value as object), evidence: evidence.level, evidenceReason: evidence.reason },
      ]),
    ),
    findings: findings.map(({ reading, severity, text, todo, key, number }) => ({
      reading,
      severity,
      text,
      todo,
      key,
      number,
    })),
  };
}

function failed({ name, trouble }: Extract<Outcome, { trouble: unknown }>): object {
  return { schema: SCHEMA, picture: { name }, error: `${trouble.sentence} ${trouble.todo}` };
}

/** Six digits are more than any reading is sure of. */
function short(_key: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(6)) : value;
}
