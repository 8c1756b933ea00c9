import {
  type Census,
  changeBetween,
  compareVersions,
  type Examination,
  examine,
  type Field,
  fillOutlines,
  firstLook,
  type Intent,
  lightness,
  luminance,
  makeViews,
  outcomeOf,
  READINGS,
  readingInput,
  register,
  takeCensus,
  VISIBLE,
  type View,
  type Views,
} from '@halflight/engine';
import type { Decoded } from '@halflight/files';
import { breathe } from '@halflight/files';
import { transfer } from 'comlink';
import type { Answer } from '../../document/work.ts';
import type { ScreenSpace, SeenMap, SeenReading } from '../../picture/desk.ts';
import type { Course, TimeDesk, VersionFile } from '../../picture/time-desk.ts';
import { wishes } from './edit/wishes.ts';
import { leftOutOf } from './left-out.ts';
import { paintView, type ScreenPixels } from './paint.ts';

/** What the versions' part may ask of the rest of the worker. */
export interface Surroundings {
  /** The picture that is open; throws when none is. */
  open(): { readonly census: Census; readonly views: Views; readonly screen: ScreenSpace };
  /** The views of the version before. */
  before(): Views | null;
  /** The open picture is what comes next is compared with. */
  keepAsBefore(): void;
  /** Reads another picture. */
  decode(file: Blob, name: string): Promise<Decoded>;
  /** The readings of the open picture. */
  examine(intent: Intent, answers: readonly Answer[]): { examination: Examination };
  /** How a reading travels to the page. */
  seen(reading: Examination['readings'][number]): SeenReading;
  toBytes(field: Field): SeenMap;
  toBitmap(pixels: ScreenPixels, width: number, screen: ScreenSpace): Promise<ImageBitmap>;
  smallPicture(views: Views): Promise<Blob>;
}

/** So many versions stay looked at; each takes some twenty megabytes. */
const KEPT = 4;
/** Long side of the maps of what changed only up close. */
const MAP_SIDE = 225;
/** Mean of new fine detail, in L*, from which a place counts as drawn anew altogether: our default. */
const DRAWN = 1.5;

/** The versions' part of the picture worker. */
export function openTimeDesk(house: Surroundings): TimeDesk {
  const { open, decode, toBytes, toBitmap } = house;
  const known = new Map<string, Views>();
  const comparisons = wishes();

  const viewsOf = async ({ hash, file, name }: VersionFile): Promise<Views> => {
    if (file === null) return open().views;
    const views = known.get(hash) ?? makeViews((await decode(file, name)).raster);
    known.delete(hash);
    known.set(hash, views);
    for (const oldest of known.keys()) if (known.size > KEPT) known.delete(oldest);
    return views;
  };

  return {
    async takeAsVersion() {
      house.keepAsBefore();
    },

    async changeSinceBefore() {
      const earlier = house.before();
      return earlier && changeBetween(earlier, open().views);
    },

    async outcomes(intent, answers) {
      const { readings } = house.examine(intent, answers).examination;
      return answers.map((answer) => (answer.kind === 'willDo' ? outcomeOf(answer, readings) : null));
    },

    async compare(earlier, later, progress) {
      const isNewest = comparisons();
      const steps = [
        `Reading ${earlier.name}`,
        `Reading ${later.name}`,
        'Laying one on the other',
        'Comparing',
      ];
      const at = async (step: number): Promise<boolean> => {
        progress({ doing: steps[step], share: step / steps.length });
        await breathe();
        return isNewest();
      };
      if (!(await at(0))) return 'stopped';
      const a = await viewsOf(earlier);
      if (!(await at(1))) return 'stopped';
      const b = await viewsOf(later);
      if (!(await at(2))) return 'stopped';
      const found = register(a.close, b.close);
      if (found === null) return null;
      if (!(await at(3))) return 'stopped';
      const { impactMap, effortMap, octaves: _octaves, ...numbers } = compareVersions(a, b, found.pose);
      const far = toBytes(farMap(impactMap));
      const near = toBytes(nearMap(effortMap, impactMap));
      const { screen } = open();
      const bitmap = await toBitmap(paintView(a.middle, screen), a.middle.width, screen);
      return transfer({ ...numbers, pose: found.pose, bitmap, far, near }, [
        bitmap,
        far.data.buffer,
        near.data.buffer,
      ]);
    },

    async stopComparing() {
      comparisons();
    },

    async readVersion({ file, name }, intent, answers) {
      if (file === null) throw new Error('The open picture is read already.');
      const { raster, facts } = await decode(file, name);
      const views = makeViews(raster);
      const input = readingInput({
        picture: facts,
        census: takeCensus(raster),
        views,
        intent,
        leftOut: leftOutOf(answers, views.close),
      });
      const { readings, ...ranked } = examine(input, answers);
      return {
        facts,
        seen: { ...ranked, readings: readings.map(house.seen) },
        small: await house.smallPicture(views),
      };
    },

    async lookFacts({ focus }) {
      const { whole } = open().views;
      return {
        average: averageLightness(whole),
        predicted: toBytes(firstLook(whole)),
        focus: focus ? toBytes(fillOutlines(focus.outlines, whole.width, whole.height)) : null,
      };
    },

    async courses(lines) {
      return coursesOf(lines);
    },
  };
}

/** Nothing below half of what is just seen, all of it from two and a half times that. */
function farMap({ width, height, data }: Field): Field {
  return { width, height, data: data.map((difference) => (difference / VISIBLE - 0.5) / 2) };
}

/** New fine detail, averaged over small squares, where the whole view stayed as it was. */
function nearMap(effort: Field, impact: Field): Field {
  const scale = Math.min(1, MAP_SIDE / Math.max(effort.width, effort.height));
  const width = Math.max(1, Math.round(effort.width * scale));
  const height = Math.max(1, Math.round(effort.height * scale));
  const sum = new Float32Array(width * height);
  const count = new Float32Array(width * height);
  for (let p = 0; p < effort.data.length; p++) {
    const x = Math.floor(((p % effort.width) * width) / effort.width);
    const y = Math.floor((Math.floor(p / effort.width) * height) / effort.height);
    sum[y * width + x] += effort.data[p];
    count[y * width + x]++;
  }
  const data = sum.map((value, p) => {
    const x = Math.floor(((p % width) * impact.width) / width);
    const y = Math.floor((Math.floor(p / width) * impact.height) / height);
    const unseen = 1 - Math.min(1, Math.max(0, impact.data[y * impact.width + x] / VISIBLE - 0.5));
    return (value / count[p] / DRAWN) * unseen;
  });
  return { width, height, data };
}

/** L* of the mean luminance of what is painted. */
function averageLightness({ rgb, alpha }: View): number {
  let sum = 0;
  let cover = 0;
  for (let p = 0; 3 * p < rgb.length; p++) {
    const part = alpha ? alpha[p] : 1;
    sum += part * luminance(rgb[3 * p], rgb[3 * p + 1], rgb[3 * p + 2]);
    cover += part;
  }
  return lightness(cover > 0 ? Math.min(1, Math.max(0, sum / cover)) : 0.18);
}

/** One line of `halflight/check@1`, as far as it is needed. */
interface Line {
  readonly readings?: Record<string, { readonly evidence?: string } | undefined>;
}

function coursesOf(lines: readonly (string | null)[]): Course[] {
  const parsed = lines.map((line): Line => (line === null ? {} : parse(line)));
  return READINGS.map(({ id, title, measures }) => ({
    reading: id,
    title,
    measures: measures.map(({ key, label, unit, digits, get }) => ({
      key,
      label,
      unit,
      digits,
      values: parsed.map(({ readings }) => {
        const value = readings?.[id];
        return value === undefined || value.evidence === 'weak' ? null : numberOf(() => get(value as never));
      }),
    })),
  }));
}

/** A line of another version of the program may lack what a measure needs. */
function numberOf(get: () => number | null): number | null {
  try {
    const value = get();
    return typeof value === 'number' && Number.isFinite(value) ? value : null;
  } catch {
    return null;
  }
}

function parse(line: string): Line {
  try {
    return JSON.parse(line) as Line;
  } catch {
    return {};
  }
}
