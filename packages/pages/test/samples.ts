import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import {
  type ClassOverviewData,
  type CritiqueData,
  FONT_FILES,
  openTypeface,
  type PagePicture,
  type ReportData,
} from '../src/index.ts';

const { resolve } = createRequire(new URL('../../cli/src/index.ts', import.meta.url));
const read = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(resolve(`@fontsource/source-sans-3/files/${name}`)));

export const FACE = openTypeface({
  regular: FONT_FILES.regular.map(read),
  strong: FONT_FILES.strong.map(read),
});

/** One grey pixel as PNG (RFC 2083), shown at any size. */
const PIXEL = Uint8Array.from(
  atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGMoBwAAeQB4s2KmWQAAAABJRU5ErkJggg=='),
  (letter) => letter.charCodeAt(0),
);

export const picture = (width = 300, height = 200): PagePicture => ({
  bytes: PIXEL,
  mediaType: 'image/png',
  width,
  height,
});

/** What no page may let through. */
export const HOSTILE = `"><script>alert('x')</script><img src=x onerror=alert(1)>&amp;`;

/** Everything a report can hold; every text is the given one. */
export function report(text = 'The shade of the net sheds only gets darker.'): ReportData {
  const place = { x: 0.1, y: 0.2, width: 0.3, height: 0.2, share: 0.06 };
  return {
    schema: 'halflight/report@1',
    title: text,
    author: text,
    made: '2026-03-12T20:00:00.000Z',
    picture: { name: text, width: 300, height: 200, depth: 8, profile: text, tagged: true },
    now: picture(),
    small: picture(60, 40),
    before: { label: text, picture: picture() },
    intent: [`Who sees it ${text}`, text],
    undecided: [text],
    findings: [
      {
        key: 'light.neutral',
        reading: 'light',
        severity: 0.6,
        text,
        number: text,
        todo: text,
        origin: { kind: 'default', text },
        places: [
          { ...place, swatches: [{ label: text, rgb: [0.1, 0.2, 0.3] }] },
          { ...place, outline: [0.5, 0.5, 0.7, 0.5, 0.6, 0.8] },
        ],
        answer: { kind: 'willDo', outcome: 'smaller' },
      },
      {
        key: 'detail.overworked',
        reading: 'detail',
        severity: 0.3,
        text,
        number: text,
        todo: text,
        origin: { kind: 'default', text },
        answer: { kind: 'meantSo', reason: text },
      },
    ],
    fine: [text],
    untold: [{ title: text, reason: text }],
    stages: [picture(60, 40), picture(60, 40)],
    steps: [{ title: text, sentence: text, reason: text }],
    readings: [
      {
        id: 'value',
        title: text,
        about: text,
        drawing: {
          width: 200,
          height: 120,
          sentence: text,
          shapes: [
            { kind: 'map', x: 0, y: 0, width: 160, height: 100, map: 'tones' },
            { kind: 'rect', x: 170, y: 0, width: 20, height: 100, fill: { css: '#405060' }, stroke: 'quiet' },
            { kind: 'path', d: 'M10 10A5 5 0 0 0 20 20Z', fill: 'faint' },
            { kind: 'line', x1: 0, y1: 0, x2: 9, y2: 9, stroke: 'ink', dashed: true },
            { kind: 'circle', cx: 5, cy: 5, r: 4, fill: 'none', stroke: 'ink' },
            { kind: 'text', x: 0, y: 115, text, anchor: 'start', fill: 'quiet' },
          ],
        },
        maps: { tones: picture(80, 50) },
        measures: [{ key: 'key', label: text, unit: 'L*', digits: 0, value: -42 }],
      },
    ],
    palette: [
      { name: text, hex: '#405060', share: 0.7, role: 'family' },
      { name: text, hex: '#c08040', share: 0.3, role: 'accent' },
    ],
    process: {
      points: [
        { version: 1, effort: 0, impact: 0, minutes: null },
        { version: 2, effort: 0.4, impact: 6, minutes: null },
      ],
      versions: [1, 2].map((number) => ({
        number,
        added: '2026-03-10',
        small: picture(60, 40),
        change: text,
      })),
      sentence: text,
    },
    looks: [
      {
        at: '2026-03-11T20:00:00Z',
        version: 2,
        by: 'guest',
        seconds: 10,
        mirrored: true,
        first: [0.4, 0.6],
        mood: 0.8,
        pulledOut: { word: text },
        verdict: 'oneMore',
      },
    ],
  };
}

export function critique(text = 'The lamps carry it.'): CritiqueData {
  return {
    schema: 'halflight/critique@1',
    title: text,
    who: text,
    by: text,
    assignment: text,
    made: '2026-03-12T20:00:00.000Z',
    picture: picture(),
    points: [
      { kind: 'work', text: `${text}\n${text}`, marks: [{ kind: 'stroke', points: [0.1, 0.1, 0.5, 0.4] }] },
      { kind: 'praise', text, marks: [{ kind: 'pin', at: [0.5, 0.5] }] },
    ],
    findings: [{ text, todo: text, number: text, outlines: [[0.1, 0.1, 0.4, 0.1, 0.3, 0.5]] }],
    proposal: { picture: picture(), steps: [text] },
    closing: text,
  };
}

export function overview(names: ClassOverviewData['names'], who = 'Runa Birk'): ClassOverviewData {
  const axis = { label: 'key', ends: ['dark', 'light'] as const, values: [30, null] };
  return {
    schema: 'halflight/class-overview@1',
    title: 'Evening class',
    assignment: 'One light',
    made: '2026-03-12T20:00:00.000Z',
    names,
    works: [
      {
        who,
        title: `${who} evening`,
        small: picture(60, 40),
        strong: 'Two hues.',
        first: 'Decide the light.',
        page: '1 a.html',
      },
      { who, small: picture(40, 60), page: 'javascript:alert(1)' },
    ],
    common: [{ text: 'The shade only gets darker.', todo: 'Look at the sky.', works: [0, 1] }],
    plane: { across: axis, up: axis },
    unread: ['One file is broken.'],
  };
}
