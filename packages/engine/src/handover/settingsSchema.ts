import * as v from 'valibot';
import { nearMiss } from '../intent/nearMiss.ts';
import type { Checked } from '../intent/schema.ts';
import { nameTrouble } from './fileName.ts';
import { type HandoverSettings, PRESETS, type PresetName } from './settings.ts';

const SCHEMA = 'halflight/handover@1';
const finite = v.pipe(v.number(), v.finite());
const positive = v.pipe(
  finite,
  v.check((n) => n > 0, 'should be above 0'),
);
const between = (low: number, high: number) =>
  v.pipe(finite, v.minValue(low, `should be at least ${low}`), v.maxValue(high, `should be at most ${high}`));
const text = v.pipe(v.string(), v.maxLength(2000, 'should have at most 2000 letters'));

const size = v.looseObject({
  fit: v.picklist(['own', 'within', 'fill', 'page']),
  width: v.nullable(positive),
  height: v.nullable(positive),
  unit: v.picklist(['px', 'mm', 'inch']),
  pixelsPerInch: v.nullable(between(10, 4800)),
  enlarge: v.boolean(),
  margin: between(0, 100_000),
  ground: v.pipe(v.string(), v.regex(/^#[0-9a-f]{6}$/i, 'should be a colour like #ffffff')),
});

const settings = v.looseObject({
  schema: v.literal(SCHEMA),
  preset: v.picklist(Object.keys(PRESETS) as PresetName[]),
  size,
  space: v.union([
    v.picklist(['own', 'srgb', 'display-p3', 'a98-rgb']),
    v.looseObject({
      profile: v.pipe(v.string(), v.minLength(1)),
      intent: v.picklist(['relative', 'perceptual']),
      blackPoint: v.boolean(),
    }),
  ]),
  format: v.picklist(['png', 'jpeg', 'tiff', 'webp', 'openraster']),
  depth: v.picklist([8, 16]),
  quality: between(1, 100),
  sharpen: between(0, 100),
  metadata: v.looseObject({
    title: text,
    author: text,
    rights: text,
    keepOthers: v.boolean(),
    keepLocation: v.boolean(),
  }),
  process: v.looseObject({
    side: v.pipe(between(64, 2000), v.integer('should be a whole number')),
    seconds: between(0.34, 60),
  }),
  name: v.pipe(v.string(), v.maxLength(200, 'should have at most 200 letters')),
});

/**
 * Looks through settings that come from a file. What they leave out is taken from the preset they name (`preset`,
 * otherwise 'screen'), so that a file may hold only what differs. Unknown fields are kept unless they look like a
 * misspelt known one.
 */
export function checkSettings(value: unknown): Checked<HandoverSettings> {
  if (!isObject(value)) return no('it should be an object in braces.');
  const { schema = SCHEMA, preset = 'screen' } = value;
  if (schema !== SCHEMA)
    return no(
      typeof schema === 'string' && schema.startsWith('halflight/handover@')
        ? `it is of a newer kind (${schema}); a newer Halflight reads it.`
        : `“schema” should be “${SCHEMA}”.`,
    );
  if (typeof preset !== 'string' || !(preset in PRESETS))
    return no(`“preset” should be one of ${Object.keys(PRESETS).join(', ')}.`);
  const base = PRESETS[preset as PresetName];
  const misspelt = misspeltIn(value, base, '');
  if (misspelt) return no(misspelt);
  const space = isObject(value.space)
    ? { intent: 'relative', blackPoint: true, ...value.space }
    : (value.space ?? base.space);
  const whole = {
    ...base,
    ...value,
    schema: SCHEMA,
    space,
    size: merged(base.size, value.size),
    metadata: merged(base.metadata, value.metadata),
    process: merged(base.process, value.process),
  };
  const result = v.safeParse(settings, whole);
  if (!result.success) {
    const [issue] = result.issues;
    const where = v.getDotPath(issue);
    return no(`${where ? `in “${where}”: ` : ''}${issue.message}.`);
  }
  const checked = result.output as unknown as HandoverSettings;
  const trouble = nameTrouble(checked.name) ?? togetherTrouble(checked);
  return trouble ? no(trouble) : { ok: true, value: checked };
}

/** What fits one by one but not together; null when all is well. */
function togetherTrouble({ size: s, format, space, metadata }: HandoverSettings): string | null {
  if (s.unit !== 'px' && s.pixelsPerInch === null && s.fit !== 'own')
    return `a size in ${s.unit} needs “size.pixelsPerInch”.`;
  if ((s.fit === 'fill' || s.fit === 'page') && (s.width === null || s.height === null))
    return `“size.fit”: “${s.fit}” needs a width and a height.`;
  if (s.fit === 'within' && s.width === null && s.height === null)
    return '“size.fit”: “within” needs a width or a height.';
  if (s.fit === 'page' && 2 * s.margin >= Math.min(s.width ?? 0, s.height ?? 0))
    return '“size.margin” leaves no room for the picture.';
  if (format === 'openraster' && s.fit !== 'own') return 'a layered file keeps the picture’s own size.';
  if (format === 'openraster' && typeof space === 'object')
    return 'a layered file can’t have a profile from a file; choose PNG, JPEG or TIFF.';
  if (metadata.keepLocation && !metadata.keepOthers)
    return 'the place is kept only together with the rest: set “metadata.keepOthers” too.';
  return null;
}

type Plain = Record<string, unknown>;

function isObject(value: unknown): value is Plain {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function merged(base: object, given: unknown): unknown {
  return given === undefined ? base : isObject(given) ? { ...base, ...given } : given;
}

function misspeltIn(value: Plain, base: object, path: string): string | null {
  const known = Object.keys(base);
  for (const [key, inner] of Object.entries(value)) {
    const meant = known.includes(key) ? null : nearMiss(key, known);
    if (meant !== null) return `“${path}${key}” is not known here; “${path}${meant}” may be meant.`;
    const below = Reflect.get(base, key);
    if (isObject(inner) && isObject(below)) {
      const found = misspeltIn(inner, below, `${path}${key}.`);
      if (found) return found;
    }
  }
  return null;
}

function no(trouble: string): Checked<HandoverSettings> {
  return { ok: false, trouble };
}
