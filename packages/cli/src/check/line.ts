import type { ColourSpace, Finding, Place } from '@halflight/engine';
import type { Looked } from './look.ts';
import type { Outcome } from './outcome.ts';
import { hexIn } from './places.ts';

/** One line of `check --json`: the schema is a contract with scripts and only ever gains fields. */
export function lineOf(outcome: Outcome): string {
  return JSON.stringify('looked' in outcome ? found(outcome.looked) : failed(outcome), short);
}

const SCHEMA = 'halflight/check@1';

/** What goes into a line. */
type Sayable = Pick<Looked, 'picture' | 'readings' | 'findings' | 'space'>;

/** What a line says of a picture that was read; numbers with all their digits. */
function found({ picture, readings, findings, space }: Sayable): object {
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
    findings: findings.map((finding) => findingLine(finding, space)),
  };
}

/** The same line for a picture that was read. */
export function lineOfLooked(looked: Sayable): string {
  return JSON.stringify(found(looked), short);
}

function findingLine(finding: Finding, space: ColourSpace): object {
  const { reading, severity, text, todo, key, number, places } = finding;
  return {
    reading,
    severity,
    text,
    todo,
    key,
    number,
    ...(places && { places: places.map((place) => placeLine(place, space)) }),
  };
}

/** Outlines in shares of width and height; colours as code values of the picture's own space. */
function placeLine({ x, y, width, height, share, outline, swatches }: Place, space: ColourSpace): object {
  return {
    x,
    y,
    width,
    height,
    share,
    ...(outline && { outline }),
    ...(swatches && { swatches: swatches.map((s) => ({ label: s.label, hex: hexIn(s, space) })) }),
  };
}

function failed({ name, trouble }: Extract<Outcome, { trouble: unknown }>): object {
  return { schema: SCHEMA, picture: { name }, error: `${trouble.sentence} ${trouble.todo}` };
}

/** Six digits are more than any reading is sure of. */
function short(_key: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(6)) : value;
}
