import type { ColourSpace } from '../colour/space.ts';
import type { Finding, Place } from '../findings/finding.ts';
import { hexIn } from '../guide/guide.ts';
import { sixDigits } from '../numbers/sixDigits.ts';
import type { PictureFacts } from '../views/raster.ts';
import type { Evidence, ReadingId } from './reading.ts';

/** Schema of a line of `check --json`: a contract with scripts that only ever gains fields. */
export const CHECK_SCHEMA = 'halflight/check@1';

/** What goes into a line. */
export interface CheckedPicture {
  readonly picture: PictureFacts;
  readonly readings: readonly {
    readonly id: ReadingId;
    readonly value: unknown;
    readonly evidence: Evidence;
  }[];
  readonly findings: readonly Finding[];
}

/**
 * A picture's readings and findings as one line of JSON, numbers with six digits.
 *
 * @param space the picture's own, for the colours of places; null leaves the places out
 */
export function checkLine(
  { picture, readings, findings }: CheckedPicture,
  space: ColourSpace | null,
): string {
  const { name, width, height, depth, profile } = picture;
  const line = {
    schema: CHECK_SCHEMA,
    picture: { name, width, height, depth, profile },
    readings: Object.fromEntries(
      readings.map(({ id, value, evidence }) => [
        id,
        { ...(value as object), evidence: evidence.level, evidenceReason: evidence.reason },
      ]),
    ),
    findings: findings.map((finding) => findingLine(finding, space)),
  };
  return JSON.stringify(line, sixDigits);
}

function findingLine(finding: Finding, space: ColourSpace | null): object {
  const { reading, severity, text, todo, key, number, places } = finding;
  return {
    reading,
    severity,
    text,
    todo,
    key,
    number,
    ...(space && places && { places: places.map((place) => placeLine(place, space)) }),
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
    ...(swatches && { swatches: swatches.map(({ label, rgb }) => ({ label, hex: hexIn(rgb, space) })) }),
  };
}
