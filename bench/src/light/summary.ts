/** Pools the scores of many pictures and prints them as tables. */
import type { FlagKind } from './answer.ts';
import type { Found, Score } from './metrics.ts';
import type { Finish, Plant } from './picture.ts';

export interface Scored {
  readonly name: string;
  readonly plant: Plant;
  readonly finish: Finish;
  readonly heldOut: boolean;
  readonly neutralLight: boolean;
  readonly score: Score;
}

export interface WithoutScored {
  readonly name: string;
  readonly stated: boolean;
  readonly flaggedShare: number;
}

/** One line of the table: a figure, its aim, and its values by column. */
export interface Line {
  readonly label: string;
  readonly aim: string;
  readonly values: string[];
}

export const median = (v: readonly number[]): number => {
  if (v.length === 0) return Number.NaN;
  const s = [...v].sort((a, b) => a - b);
  return s.length % 2 ? s[s.length >> 1]! : (s[(s.length >> 1) - 1]! + s[s.length >> 1]!) / 2;
};

const number = (v: number, digits: number) => (Number.isFinite(v) ? v.toFixed(digits) : '–');
const percent = (v: number) => (Number.isFinite(v) ? `${(100 * v).toFixed(2)} %` : '–');

/** Columns: tuned and held-out part, each plain, jitter, brush. */
export const COLUMNS: readonly { title: string; take: (s: Scored) => boolean }[] = (
  ['tuned', 'held out'] as const
).flatMap((part) =>
  (['plain', 'jitter', 'brush'] as const).map((finish) => ({
    title: `${part}, ${finish}`,
    take: (s: Scored) => s.heldOut === (part === 'held out') && s.finish === finish,
  })),
);

/** All figures, one line each. */
export function figures(all: readonly Scored[]): Line[] {
  const line = (label: string, aim: string, value: (part: Scored[]) => string): Line => ({
    label,
    aim,
    values: COLUMNS.map((c) => value(all.filter(c.take))),
  });
  const directions = (p: Scored[]) =>
    p.filter((s) => !s.neutralLight).flatMap((s) => s.score.direction ?? []);
  const lines = [
    line('pictures', '', (p) => String(p.length)),
    line('direction of the shift, median error (°)', '≤ 3', (p) =>
      number(median(directions(p).map((d) => d.degrees)), 1),
    ),
    line('  worst tenth from (°)', '', (p) => {
      const s = directions(p)
        .map((d) => d.degrees)
        .sort((a, b) => a - b);
      return number(s[Math.floor(0.9 * (s.length - 1))] ?? Number.NaN, 1);
    }),
    line('size of the shift, median ratio', '', (p) => number(median(directions(p).map((d) => d.size)), 2)),
    line('coloured light stated, of the coloured ones', '', (p) =>
      countOf(
        p.filter((s) => !s.neutralLight),
        (s) => s.score.stated,
      ),
    ),
    line('coloured light stated under neutral light', '0', (p) =>
      countOf(
        p.filter((s) => s.neutralLight),
        (s) => s.score.stated,
      ),
    ),
  ];
  for (const kind of ['neutral', 'opposite'] as const) {
    const aims = kind === 'neutral' ? ['≥ 0.93', '≥ 0.85'] : ['≥ 0.88', '≥ 0.80'];
    const of = (p: Scored[]) => p.filter((s) => s.plant === kind).map((s) => s.score.flags[kind]);
    const pooled = (p: Scored[], group: 'near' | 'far' | 'hazed' | 'undecidable') =>
      poolFound(of(p).map((f) => f[group]));
    lines.push(
      line(`${kind}: precision by area`, aims[0]!, (p) => {
        const right = sum(of(p).map((f) => f.right));
        return number(right / (right + sum(of(p).map((f) => f.wrong))), 3);
      }),
      line(`${kind}: recall of the decidable area`, aims[1]!, (p) =>
        recall(poolFound((['near', 'far', 'hazed'] as const).map((g) => pooled(p, g)))),
      ),
      line('  up to 60 px from the lit part', '', (p) => recall(pooled(p, 'near'))),
      line('  farther', '', (p) => recall(pooled(p, 'far'))),
      line('  under haze', '', (p) => recall(pooled(p, 'hazed'))),
      line('  seen lit nowhere (not expected)', '', (p) => recall(pooled(p, 'undecidable'))),
      line(`${kind}: colour now, CIEDE2000, median of places`, '', (p) =>
        number(median(colours(p, kind).map((c) => c.before)), 1),
      ),
      line('  proposed', '≤ 5', (p) => number(median(colours(p, kind).map((c) => c.after)), 1)),
      line('  left of the difference (area-weighted)', '≤ 25 %', (p) => {
        const c = colours(p, kind);
        return percent(sum(c.map((v) => v.after * v.area)) / sum(c.map((v) => v.before * v.area)));
      }),
    );
  }
  for (const kind of ['neutral', 'opposite'] as const) {
    const clean = (p: Scored[]) => p.filter((s) => s.plant === 'clean').map((s) => s.score.alarms[kind]);
    lines.push(
      line(`false alarms on clean pictures, ${kind}: mean share`, '< 1 %', (p) =>
        percent(sum(clean(p)) / clean(p).length),
      ),
      line('  worst', '', (p) => percent(Math.max(...clean(p)))),
    );
  }
  lines.push(line('time, median (ms)', '', (p) => number(median(p.map((s) => s.score.milliseconds)), 0)));
  return lines;
}

const sum = (v: readonly number[]) => v.reduce((a, b) => a + b, 0);
const colours = (p: Scored[], kind: FlagKind) =>
  p.filter((s) => s.plant === kind).flatMap((s) => s.score.colours);
const countOf = (p: Scored[], test: (s: Scored) => boolean) => `${p.filter(test).length} of ${p.length}`;
const recall = (f: Found) => number(f.found / f.planted, 3);

function poolFound(v: readonly Found[]): Found {
  return { found: sum(v.map((f) => f.found)), planted: sum(v.map((f) => f.planted)) };
}

/** The table as Markdown; it reads well in a terminal too. */
export function tableOf(lines: readonly Line[]): string {
  const rows = [
    ['', 'aim', ...COLUMNS.map((c) => c.title)],
    ...lines.map((l) => [l.label.replace(/^ {2}/, '· '), l.aim, ...l.values]),
  ];
  const widths = rows[0]!.map((_, c) => Math.max(...rows.map((r) => r[c]!.length)));
  const text = rows.map(
    (r) => `| ${r.map((v, c) => (c === 0 ? v.padEnd(widths[c]!) : v.padStart(widths[c]!))).join(' | ')} |`,
  );
  const rule = `|${widths.map((w, c) => (c === 0 ? '-'.repeat(w + 2) : `${'-'.repeat(w + 1)}:`)).join('|')}|`;
  return [text[0], rule, ...text.slice(1)].join('\n');
}

/** One line a picture, to see which ones are hard. */
export function perPicture(all: readonly Scored[]): string {
  return all
    .map((s) => {
      const { direction: d, colours: c, stated } = s.score;
      const light = d ? `${d.degrees.toFixed(1)}° ×${d.size.toFixed(2)}` : stated ? 'stated' : 'abstains';
      const parts = [
        s.name.padEnd(44),
        s.heldOut ? 'held' : '    ',
        light.padEnd(13),
        flagText(s, 'neutral').padEnd(26),
        flagText(s, 'opposite').padEnd(27),
      ];
      if (c.length > 0)
        parts.push(
          `colour ${number(median(c.map((v) => v.before)), 1)}→${number(median(c.map((v) => v.after)), 1)}`,
        );
      return parts.join(' ').trimEnd();
    })
    .join('\n');
}

function flagText(s: Scored, kind: FlagKind): string {
  if (s.plant !== kind) return `${kind} alarms ${percent(s.score.alarms[kind])}`;
  const { near, far, hazed, right, wrong } = s.score.flags[kind];
  return `${kind} P ${number(right / (right + wrong), 2)} R ${recall(poolFound([near, far, hazed]))}`;
}
