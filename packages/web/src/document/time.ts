import type { Outcome, Pose } from '@halflight/engine';
import { type Decision, type Glance, type Look, type Version, type Work, withVersion } from './work.ts';

/** What happens to a work over time: versions, glances, quiet looks, being done. */
export type TimeCommand =
  | {
      readonly kind: 'addVersion';
      /** Its number is given by the work. */
      readonly version: Omit<Version, 'number'>;
      /** How it lies on the version before; null when that is not known. */
      readonly pose: Pose | null;
      /** What it says to each "will do", in the order of the answers as they have travelled; null for others. */
      readonly outcomes?: readonly (Outcome | null)[];
      /** The glance that is kept by this, which is then none any more. */
      readonly glance?: string;
    }
  | { readonly kind: 'glance'; readonly glance: Glance }
  | { readonly kind: 'dropGlance'; readonly id: string }
  | { readonly kind: 'addLook'; readonly look: Look }
  | { readonly kind: 'callDone'; readonly decision: Decision }
  | { readonly kind: 'reopen' };

const TIME_KINDS = new Set<string>([
  'addVersion',
  'glance',
  'dropGlance',
  'addLook',
  'callDone',
  'reopen',
] satisfies TimeCommand['kind'][]);

/** Tells these commands from the others of a work. */
export function isTimeCommand<C extends { readonly kind: string }>(
  command: C | TimeCommand,
): command is TimeCommand {
  return TIME_KINDS.has(command.kind);
}

/** The work after one of these; the same object when there is nothing to change. */
export function applyToTime(work: Work, command: TimeCommand): Work {
  switch (command.kind) {
    case 'addVersion':
      return addVersion(work, command);
    case 'glance':
      return work.glances.some(({ id }) => id === command.glance.id)
        ? work
        : { ...work, glances: [...work.glances, command.glance] };
    case 'dropGlance': {
      const glances = work.glances.filter(({ id }) => id !== command.id);
      return glances.length === work.glances.length ? work : { ...work, glances };
    }
    case 'addLook':
      return { ...work, looks: [...work.looks, command.look] };
    case 'callDone':
      return { ...work, state: 'decided', decision: command.decision };
    case 'reopen': {
      const { decision, ...rest } = work;
      return decision === undefined ? work : { ...rest, state: 'painting' };
    }
  }
}

function addVersion(
  work: Work,
  { version, pose, outcomes, glance }: TimeCommand & { kind: 'addVersion' },
): Work {
  const number = Math.max(...work.versions.map((old) => old.number)) + 1;
  const next = withVersion(work, { ...version, number }, pose);
  const answers = next.answers.map((answer, index) => {
    const state = outcomes?.[index];
    return state && answer.kind === 'willDo' ? { ...answer, outcome: { version: number, state } } : answer;
  });
  return { ...next, answers, glances: next.glances.filter(({ id }) => id !== glance) };
}

/** What a command did, to follow "undo". */
export function timeWords(command: TimeCommand): string {
  switch (command.kind) {
    case 'addVersion':
      return command.glance === undefined ? 'the new version' : 'keeping the paste';
    case 'glance':
      return 'the paste';
    case 'dropGlance':
      return 'dropping a paste';
    case 'addLook':
      return 'a quiet look';
    case 'callDone':
      return 'calling it done';
    case 'reopen':
      return 'taking it up again';
  }
}

/** Hashes of bytes that a command brings into the work: they must stay while it can be done again. */
export function bytesOf(command: { readonly kind: string }): string[] {
  const { version, glance } = command as Partial<Record<'version' | 'glance', unknown>>;
  const sheets = [version, glance].filter((it) => typeof it === 'object' && it !== null);
  return sheets.flatMap((sheet) => {
    const { hash, readings, small } = sheet as Partial<Record<'hash' | 'readings' | 'small', string>>;
    return [readings, small, hash].filter((it) => it !== undefined);
  });
}
