import type { ClassDocument, ClassWork } from '../../state/class-document.ts';
import { isRead, type KeptReading, type ReadWork } from '../../state/class-reading.ts';
import type { ClassMeasure } from '../../workers/class/desk.ts';

/** A work with what was read of it. */
export interface ReadEntry {
  readonly work: ClassWork;
  readonly read: ReadWork;
}

/** The works that are read, in the order of the class. */
export function readEntries(
  { works }: ClassDocument,
  readings: Readonly<Record<string, KeptReading>>,
): ReadEntry[] {
  return works.flatMap((work) => {
    const read = readings[work.id];
    return isRead(read) ? [{ work, read }] : [];
  });
}

/** Works that share a finding. */
export interface SharedFinding {
  readonly key: string;
  readonly text: string;
  readonly todo: string;
  readonly works: readonly ClassWork[];
}

/** Findings that the works have, the most shared first; a sentence is that of the work where it weighs most. */
export function sharedFindings(entries: readonly ReadEntry[]): SharedFinding[] {
  const groups = new Map<string, { text: string; todo: string; severity: number; works: ClassWork[] }>();
  for (const { work, read } of entries) {
    for (const { key, text, todo, severity } of read.findings) {
      const group = groups.get(key) ?? { text, todo, severity, works: [] };
      if (severity > group.severity) Object.assign(group, { text, todo, severity });
      group.works.push(work);
      groups.set(key, group);
    }
  }
  return [...groups]
    .map(([key, { text, todo, works }]) => ({ key, text, todo, works }))
    .sort((a, b) => b.works.length - a.works.length);
}

/** Where the works lie by two numbers. */
export interface Plane {
  readonly across: Scale;
  readonly up: Scale;
  /** In shares of the plane from its lower left corner; works without a number are not in it. */
  readonly places: ReadonlyMap<string, { readonly x: number; readonly y: number }>;
  readonly without: readonly ClassWork[];
}

export interface Scale {
  readonly measure: ClassMeasure | undefined;
  readonly from: number;
  readonly to: number;
}

/** Room at the ends of a scale, in shares of its range. */
const RIM = 0.08;

export function planeOf(
  entries: readonly ReadEntry[],
  measures: readonly ClassMeasure[],
  across: string,
  up: string,
): Plane {
  const scaleOf = (name: string): Scale => {
    const values = entries.flatMap(({ read }) => read.values[name] ?? []);
    const [low, high] = values.length ? [Math.min(...values), Math.max(...values)] : [0, 1];
    const room = (high - low) * RIM || 0.5;
    return { measure: measures.find((it) => it.name === name), from: low - room, to: high + room };
  };
  const [x, y] = [scaleOf(across), scaleOf(up)];
  const places = new Map<string, { x: number; y: number }>();
  const without: ClassWork[] = [];
  for (const { work, read } of entries) {
    const [a, b] = [read.values[across], read.values[up]];
    if (a == null || b == null) without.push(work);
    else places.set(work.id, { x: (a - x.from) / (x.to - x.from), y: (b - y.from) / (y.to - y.from) });
  }
  return { across: x, up: y, places, without };
}
