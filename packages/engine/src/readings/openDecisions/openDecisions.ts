import type { Drawing } from '../../drawings/drawing.ts';
import type { Finding } from '../../findings/finding.ts';
import { OPEN_DECISIONS } from '../../findings/thresholds/openDecisions.ts';
import { severityOf } from '../../findings/thresholds/threshold.ts';
import { countWord, listOf, sentence } from '../../findings/wording.ts';
import type { LayersReading } from '../../layers/read.ts';
import type { Reading, ReadingInput, ReadingKind } from '../reading.ts';

/** What is still undecided in a layered picture; null inside for a picture without layers. */
export interface OpenDecisionsValue {
  /** Painted layers, groups apart. */
  readonly layers: number | null;
  /** Layers that count and stand apart: those that show something, one of each choice. */
  readonly apart: number | null;
  /** Paths of layers that show nothing, hidden ones that are no option included. */
  readonly idle: readonly string[];
  /** Paths of layers of which one is to be chosen. */
  readonly options: readonly (readonly string[])[];
  /** Paths of neighbours that become one without a visible change. */
  readonly merges: readonly (readonly string[])[];
}

const FLAT: OpenDecisionsValue = { layers: null, apart: null, idle: [], options: [], merges: [] };

/** Reading 8: which layers of a layered picture are still undecided, and which count for nothing. */
export const openDecisions: ReadingKind<OpenDecisionsValue> = {
  id: 'openDecisions',
  title: 'Open decisions',
  about: 'Which layers are still kept open, and which show nothing.',
  sources: ['W3C Compositing and Blending Level 1', 'CIE 142-2001: CIEDE2000'],
  measures: [
    { key: 'layers', label: 'layers', unit: '', digits: 0, get: (v) => v.layers },
    { key: 'apart', label: 'layers that count', unit: '', digits: 0, get: (v) => v.apart },
    {
      key: 'options',
      label: 'choices left open',
      unit: '',
      digits: 0,
      get: (v) => (v.layers === null ? null : v.options.length),
    },
  ],
  mapFiles: {},
  read: ({ layers }) =>
    layers
      ? {
          value: decisionsOf(layers),
          evidence: { level: 'strong', reason: 'Every layer was taken away once and looked at.' },
          maps: {},
        }
      : {
          value: FLAT,
          evidence: { level: 'weak', reason: 'The picture has no layers.', unasked: true },
          maps: {},
        },
  findings: ({ value }, input) =>
    [optionsFinding(value), idleFinding(value), manyFinding(value, input)].filter((f) => f !== null),
  fine: ({ value }) => `${counted(value.layers ?? 0)}, and every one is decided.`,
  draw,
};

function decisionsOf({ layers, options, merges }: LayersReading): OpenDecisionsValue {
  const painted = layers.filter(({ group }) => !group);
  const open = new Set(options.flat());
  const idle = painted.filter(({ redundant, path }) => redundant && !open.has(path));
  const outside = painted.filter(({ path }) => !open.has(path)).length - idle.length;
  return {
    layers: painted.length,
    apart: outside + options.length,
    idle: idle.map(({ path }) => path),
    options,
    merges,
  };
}

function optionsFinding({ options }: OpenDecisionsValue): Finding | null {
  const severity = severityOf(options.length, OPEN_DECISIONS.options);
  if (severity === 0) return null;
  const [first] = options;
  return {
    key: 'openDecisions.options',
    reading: 'openDecisions',
    severity,
    text:
      options.length === 1
        ? `One choice is left open: ${quoted(first, 'or')}.`
        : `${sentence(countWord(options.length))} choices between layers are left open.`,
    number: options.map((set) => quoted(set, 'or')).join('; '),
    todo: 'Choose one of each and let the others go.',
    origin: OPEN_DECISIONS.options.origin,
  };
}

function idleFinding({ idle }: OpenDecisionsValue): Finding | null {
  const severity = severityOf(idle.length, OPEN_DECISIONS.idle);
  if (severity === 0) return null;
  return {
    key: 'openDecisions.idle',
    reading: 'openDecisions',
    severity,
    text: `${counted(idle.length)} ${idle.length === 1 ? 'shows' : 'show'} nothing.`,
    number: quoted(idle, 'and'),
    todo:
      idle.length === 1 ? 'Take it away and look.' : 'Take them away one at a time and look: none is missed.',
    origin: OPEN_DECISIONS.idle.origin,
  };
}

function manyFinding({ apart }: OpenDecisionsValue, { intent }: ReadingInput): Finding | null {
  const limit = intent.layerLimit ?? OPEN_DECISIONS.limit;
  const severity = severityOf(apart ?? 0, { from: limit + 1, strong: 3 * limit });
  if (severity === 0) return null;
  return {
    key: 'openDecisions.many',
    reading: 'openDecisions',
    severity,
    text: `${counted(apart ?? 0)} are still apart.`,
    number: `${apart} layers that count, at most ${limit} ${intent.layerLimit === undefined ? 'by our default' : 'by the intent'}`,
    todo: 'Make the painting one and keep only its effects apart.',
    origin:
      intent.layerLimit === undefined
        ? OPEN_DECISIONS.options.origin
        : { kind: 'intent', text: 'the limit that you named' },
  };
}

const counted = (count: number): string =>
  `${sentence(countWord(count))} ${count === 1 ? 'layer' : 'layers'}`;

function quoted(paths: readonly string[], last: 'and' | 'or'): string {
  const names = paths.map((path) => `“${path}”`);
  return last === 'and' ? listOf(names) : names.join(' or ');
}

const WIDTH = 240;
const ROW = 12;

/** Three bars under each other: layers that count, choices left open, layers that show nothing. */
function draw({ value }: Reading<OpenDecisionsValue>): Drawing {
  const { layers, apart, options, idle } = value;
  if (layers === null || apart === null)
    return { width: WIDTH, height: ROW, shapes: [], sentence: 'The picture has no layers.' };
  const open = options.flat().length;
  const parts = [apart - options.length, open, idle.length];
  const most = Math.max(1, ...parts);
  return {
    width: WIDTH,
    height: parts.length * ROW,
    shapes: parts.map((count, row) => ({
      kind: 'rect',
      x: 0,
      y: row * ROW + 2,
      width: Math.round((WIDTH * count) / most),
      height: ROW - 4,
      fill: row === 0 ? 'ink' : row === 1 ? 'quiet' : 'faint',
      stroke: 'quiet',
    })),
    sentence: `${parts[0]} layers count, ${open} stand for choices left open, ${idle.length} show nothing.`,
  };
}
