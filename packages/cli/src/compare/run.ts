import { basename } from 'node:path';
import {
  type Comparison,
  compareVersions,
  makeViews,
  type Pose,
  percent,
  register,
  SAME_POSE,
  sixDigits,
  type Views,
} from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import { tellTrouble } from '../check/outcome.ts';
import { wrap } from '../terminal/wrap.ts';
import { EXIT } from '../trouble.ts';

export interface CompareOptions {
  readonly json?: boolean;
  readonly limit: number;
}

/** Compares two versions and prints what changed; gives the exit code. */
export async function compare(earlier: string, later: string, options: CompareOptions): Promise<number> {
  const codec = await openCodec();
  const views: Views[] = [];
  for (const path of [earlier, later]) {
    try {
      const { raster } = await readPicture(path, { codec, limitMegapixels: options.limit });
      views.push(makeViews(raster));
    } catch (error) {
      tellTrouble(error, basename(path));
    }
  }
  codec.close();
  if (views.length < 2) return EXIT.unread;
  const [a, b] = views;
  const found = register(a.close, b.close);
  if (!found) {
    process.stderr.write(
      `“${basename(later)}” does not lie on “${basename(earlier)}”: nothing of one is seen in the other. Choose two versions of one picture.\n`,
    );
    return EXIT.unread;
  }
  const result = compareVersions(a, b, found.pose);
  process.stdout.write(
    options.json ? `${lineOf(earlier, later, found.pose, result)}\n` : textOf(found.pose, result),
  );
  return EXIT.done;
}

function lineOf(earlier: string, later: string, pose: Pose, c: Comparison): string {
  const { impactMap: _i, effortMap: _e, ...numbers } = c;
  return JSON.stringify(
    { schema: 'halflight/compare@1', earlier: basename(earlier), later: basename(later), pose, ...numbers },
    sixDigits,
  );
}

function textOf(pose: Pose, c: Comparison): string {
  const lines: string[] = [];
  if (c.impact === 0 && c.effort === 0) lines.push('Nothing changed.');
  else {
    lines.push(
      c.changedShare < 0.005
        ? 'From a distance nothing changed.'
        : `From a distance ${percent(c.changedShare)} of the picture changed, by ${c.impact.toFixed(1)} on the whole (CIEDE2000; 1 is just seen).`,
      `Up close ${percent(c.effort)} of the fine detail is different${
        c.effort > 0.01 ? `; ${percent(c.effortWithoutImpact)} of that does not show from a distance` : ''
      }.`,
    );
    if (c.effort > 0.05 && c.impact < 1)
      lines.push(
        'The last work went into strokes that leave the picture as it was: stand back before the next.',
      );
  }
  const how = describePose(pose);
  if (how) lines.push(`The later version is ${how}; what both show was compared.`);
  return `${lines.map((line) => wrap(line, 72)).join('\n')}\n`;
}

function describePose(pose: Pose): string {
  const parts: string[] = [];
  if (pose.mirrored) parts.push('mirrored');
  if (pose.turns > 0) parts.push(`turned by ${90 * pose.turns}°`);
  const near = (v: number, to: number): boolean => Math.abs(v - to) < 0.01;
  const whole =
    near(pose.x, SAME_POSE.x) && near(pose.y, SAME_POSE.y) && near(pose.width, 1) && near(pose.height, 1);
  if (!whole) parts.push(pose.width > 1.01 || pose.height > 1.01 ? 'larger at its borders' : 'cropped');
  return parts.join(' and ');
}
