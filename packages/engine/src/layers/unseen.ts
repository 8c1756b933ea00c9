import type { ColourSpace } from '../colour/space.ts';
import { lineRunner } from './lines.ts';
import { presenceOf } from './present.ts';
import type { Program } from './program.ts';
import { isFaint, lightOfCodes, openEye } from './seen.ts';
import { FEW, UNSEEN } from './weigh.ts';

/**
 * For some parts whether hiding each is not seen even up close: at most at few of the part's own places, so that a
 * small glint counts. Yields the share done after each row.
 */
export function* unseenParts(
  { width, height }: { width: number; height: number },
  program: Program,
  asked: readonly number[],
  space: ColourSpace,
): Generator<number, boolean[]> {
  const runner = lineRunner(program);
  const light = lightOfCodes(space);
  const eye = openEye(UNSEEN);
  const covered = new Float64Array(program.parts.length);
  const seen = new Float64Array(program.parts.length);
  const presence = presenceOf(
    program,
    asked.map((k) => program.parts[k]),
  );
  const enough = FEW * width * height;
  const codes = new Float64Array(4);
  const full = new Float64Array(4);
  const less = new Float64Array(4);
  const { result } = runner;
  const rows = rowsAsked(program, asked, height);
  for (let y = 0; y < height; y++) {
    if (rows[y]) {
      presence.enter(y);
      for (let x = 0; x < width; x++) {
        let made = false;
        let lit = false;
        for (let i = 0; i < asked.length; i++) {
          const k = asked[i];
          if (seen[k] > enough || !presence.some(i, x)) continue;
          if (!made) runner.at(x, y);
          made = true;
          if (runner.painted(k)) covered[k]++;
          if (!runner.without(k, codes) || isFaint(result, codes)) continue;
          if (!lit) {
            light(result, full);
            eye.at(full);
            lit = true;
          }
          light(codes, less);
          if (eye.tells(less)) seen[k]++;
        }
      }
    }
    yield (y + 1) / height;
  }
  return asked.map((k) => seen[k] <= FEW * covered[k]);
}

/** Rows in which one of the parts may do something. */
function rowsAsked({ acts, parts }: Program, asked: readonly number[], height: number): Uint8Array {
  const rows = new Uint8Array(height);
  for (const k of asked)
    for (const { layer, local } of acts.slice(parts[k].from, parts[k].to))
      if (!local) rows.fill(1);
      else if (layer) rows.fill(1, Math.max(0, layer.y), Math.max(0, layer.y + layer.raster.height));
  return rows;
}
