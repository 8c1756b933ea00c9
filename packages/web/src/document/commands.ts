import type { Intent } from '@halflight/engine';
import { applyToRecipe, type RecipeCommand, recipeWords } from './recipe.ts';
import { applyToTime, isTimeCommand, type TimeCommand, timeWords } from './time.ts';
import type { Answer, Work, WorkState } from './work.ts';

/** Everything that can be done to a work, as plain data: the journal is a list of these. */
export type Command =
  | { readonly kind: 'answer'; readonly answers: readonly Answer[] }
  | { readonly kind: 'takeBack'; readonly key: string }
  | {
      readonly kind: 'decide';
      readonly part: IntentPart;
      readonly intent: Intent;
      /** When, ISO 8601; commands of the first days have none. */
      readonly at?: string;
    }
  | { readonly kind: 'rename'; readonly title: string }
  | { readonly kind: 'setState'; readonly state: WorkState }
  | RecipeCommand
  | TimeCommand;

/** Which part of the intent a command changes: only that part is taken from it. */
export type IntentPart = Exclude<keyof Intent, 'schema'>;

/** The next document. Pure and total: a command that has nothing to change returns the same work. */
export function apply(work: Work, command: Command): Work {
  switch (command.kind) {
    case 'answer': {
      const given = command.answers;
      if (given.length === 0) return work;
      const others = work.answers.filter((old) => !given.some((answer) => sameQuestion(old, answer)));
      return { ...work, answers: [...others, ...given] };
    }
    case 'takeBack': {
      const answers = work.answers.filter((answer) => answer.key !== command.key);
      return answers.length === work.answers.length ? work : { ...work, answers };
    }
    case 'decide': {
      const { [command.part]: _old, ...rest } = work.intent;
      const next = command.intent[command.part];
      const intent = (next === undefined ? rest : { ...rest, [command.part]: next }) as Intent;
      return { ...work, intent, pastIntents: past(work, command.at) };
    }
    case 'rename':
      return command.title === work.title ? work : { ...work, title: command.title };
    case 'setState':
      return command.state === work.state ? work : { ...work, state: command.state };
    default:
      return isTimeCommand(command) ? applyToTime(work, command) : applyToRecipe(work, command);
  }
}

/** Changes that follow each other within this belong to one decision, in milliseconds. */
const ONE_DECISION = 10 * 60_000;

/** What was decided before, with the intent that is now replaced: unless it stood for a few minutes only. */
function past({ intent, pastIntents }: Work, at: string | undefined): Work['pastIntents'] {
  if (at === undefined) return pastIntents;
  const last = pastIntents.at(-1);
  if (last && Date.parse(at) - Date.parse(last.until) < ONE_DECISION) {
    return [...pastIntents.slice(0, -1), { ...last, until: at }];
  }
  return [...pastIntents, { intent, until: at }];
}

/** An answer about the whole finding replaces all earlier ones to it, one about a place those about that place. */
function sameQuestion(old: Answer, answer: Answer): boolean {
  if (old.key !== answer.key) return false;
  return !answer.outline || !old.outline || String(old.outline) === String(answer.outline);
}

const PART_WORDS: Record<IntentPart, string> = {
  mood: 'the mood',
  light: 'the light',
  focus: 'the focus',
  hue: 'the hue plan',
  feel: 'what one should feel',
  delivery: 'the delivery',
  layerLimit: 'the number of layers',
};

const ANSWER_WORDS = { willDo: 'will do', meantSo: 'meant so', wrong: 'wrong' } as const;

/** What a command did, to follow "undo". */
export function commandWords(command: Command): string {
  switch (command.kind) {
    case 'answer':
      return `answering “${ANSWER_WORDS[command.answers[0].kind]}”`;
    case 'takeBack':
      return 'taking an answer back';
    case 'decide':
      return `changing ${PART_WORDS[command.part]}`;
    case 'rename':
      return 'the new title';
    case 'setState':
      return `calling it ${command.state}`;
    default:
      return isTimeCommand(command) ? timeWords(command) : recipeWords(command);
  }
}
