import { create } from 'zustand';
import { currentVersion, type Look } from '../document/work.ts';
import type { LookFacts } from '../picture/time-desk.ts';
import { pictures } from './desks.ts';
import { perform } from './edit.ts';
import { get, say } from './session.ts';

export type Surround = 'dark' | 'grey' | 'average';
export type Sizes = 'large' | 'both' | 'small';

/** How the quiet look is taken; kept in the browser. */
export interface LookWish {
  readonly seconds: number;
  readonly surround: Surround;
  readonly sizes: Sizes;
  readonly mirrored: boolean;
  readonly by: Look['by'];
}

/** What was answered so far after a look. */
export type Answers = Pick<Look, 'first' | 'mood' | 'pulledOut' | 'verdict'>;

interface LookState {
  readonly wish: LookWish;
  /** Before it, while it lasts, or while its questions are asked. */
  readonly phase: 'ready' | 'looking' | 'asking';
  /** The look that was taken last, while its questions are asked. */
  readonly taken: Pick<Look, 'at' | 'seconds' | 'mirrored' | 'by'> | null;
  readonly answers: Answers;
  /** What is known of the picture that hangs; null until it is asked. */
  readonly facts: LookFacts | null;
}

const KEY = 'halflight.look';
const DEFAULTS: LookWish = { seconds: 10, surround: 'grey', sizes: 'both', mirrored: false, by: 'own' };
export const SHORTEST = 2;
export const LONGEST = 120;

export const useLook = create<LookState>(() => ({
  wish: load(),
  phase: 'ready',
  taken: null,
  answers: {},
  facts: null,
}));

export function wishLook(change: Partial<LookWish>): void {
  const wish = { ...useLook.getState().wish, ...change };
  useLook.setState({ wish });
  try {
    localStorage.setItem(KEY, JSON.stringify(wish));
  } catch {
    // A private window may refuse: the wish then lasts as long as the page.
  }
}

function load(): LookWish {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<LookWish>;
    const one = <T extends string>(value: unknown, all: readonly T[], other: T): T =>
      all.find((it) => it === value) ?? other;
    const seconds = Number(kept.seconds);
    return {
      seconds: seconds >= SHORTEST && seconds <= LONGEST ? seconds : DEFAULTS.seconds,
      surround: one(kept.surround, ['dark', 'grey', 'average'], DEFAULTS.surround),
      sizes: one(kept.sizes, ['large', 'both', 'small'], DEFAULTS.sizes),
      mirrored: kept.mirrored === true,
      by: one(kept.by, ['own', 'guest'], DEFAULTS.by),
    };
  } catch {
    return DEFAULTS;
  }
}

/** Asks what the looks at the open picture are compared with. */
export async function learnLookFacts(): Promise<void> {
  const { history, picture } = get();
  if (history === null) return;
  const facts = await pictures.desk.lookFacts(history.present.intent).catch(() => null);
  if (get().picture === picture) useLook.setState({ facts });
}

/** How long the browser may take to go to the whole screen before the look begins without. */
const PATIENCE = 800;

/** Begins the look: on the whole screen where the browser allows it. */
export async function beginLook(): Promise<void> {
  const root = document.documentElement;
  const whole = root
    .requestFullscreen?.({ navigationUI: 'hide' })
    // It may come when the look is over already.
    .then(async () => {
      if (useLook.getState().phase === 'asking') await document.exitFullscreen();
    })
    .catch(() => undefined);
  await Promise.race([whole, new Promise((resolve) => setTimeout(resolve, PATIENCE))]);
  useLook.setState({ phase: 'looking', answers: {}, taken: null });
}

/** Ends it after so many seconds; its questions follow. */
export function endLook(seconds: number): void {
  if (document.fullscreenElement) void document.exitFullscreen().catch(() => undefined);
  const { mirrored, by } = useLook.getState().wish;
  const taken = { at: new Date().toISOString(), seconds: Math.round(10 * seconds) / 10, mirrored, by };
  useLook.setState({ phase: 'asking', taken });
}

export function answerLook(answers: Answers): void {
  useLook.setState({ answers: { ...useLook.getState().answers, ...answers } });
}

/** Takes back what pulled the eye out. */
export function nothingPulled(): void {
  const { pulledOut: _taken, ...answers } = useLook.getState().answers;
  useLook.setState({ answers });
}

/** Writes the look down with all that was answered. */
export function keepLook(): void {
  const { taken, answers } = useLook.getState();
  const { history, writable } = get();
  useLook.setState({ phase: 'ready', taken: null, answers: {} });
  if (taken === null || history === null || !writable) return;
  const { number } = currentVersion(history.present);
  perform({ kind: 'addLook', look: { ...taken, version: number, ...answers } });
  say('The look is written down.');
}

/** Forgets the look that was just taken. */
export function dropLook(): void {
  useLook.setState({ phase: 'ready', taken: null, answers: {} });
}
