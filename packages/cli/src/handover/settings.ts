import { dirname, isAbsolute, join } from 'node:path';
import {
  type Baseline,
  checkRecipe,
  checkSettings,
  type HandoverSettings,
  type Intent,
  PRESETS,
  type PresetName,
  type Recipe,
} from '@halflight/engine';
import { FileTrouble } from '@halflight/files';
import { openProfile } from '@halflight/files/handover';
import { readBytes } from '@halflight/files/node';
import type { ReportKind } from '@halflight/pages';
import { readBaseline, readIntent, readJson, writableFolder } from '../inputs.ts';
import { WrongUse } from '../trouble.ts';
import type { HandoverCall } from './run.ts';

/** What is to be made of every picture of a call. */
export interface Order {
  readonly folder: string;
  readonly settings: HandoverSettings;
  /** Bytes of the profile that the settings name. */
  readonly profile: Uint8Array | null;
  /** The edit of the call; null for none, or the work's own. */
  readonly recipe: Recipe | null;
  readonly intent: Intent;
  readonly baseline: Baseline | null;
  readonly table: boolean;
  readonly palette: boolean;
  readonly lost: boolean;
  /** How it came to be, as strips and animations. */
  readonly process: boolean;
  /** Whose reports; none when it is empty. */
  readonly reports: readonly ReportKind[];
  readonly limitMegapixels: number;
}

/** Reads everything a call names before the first picture is touched. Throws WrongUse with a sentence. */
export async function readOrder(call: HandoverCall): Promise<Order> {
  const settings = await readSettings(call);
  const recipe = call.recipe ? await readJson(call.recipe, 'a recipe', checkRecipe) : null;
  const intent = await readIntent(call.intent);
  const baseline = await readBaseline(call.baseline);
  const profile = await readProfileFile(settings, call.settings);
  return {
    // Last, so that a call with a mistake leaves no folder behind.
    folder: (await writableFolder(call.out))!,
    settings,
    profile,
    recipe,
    intent,
    baseline,
    table: call.table === true,
    palette: call.palette === true,
    lost: call.lost === true,
    process: call.process === true,
    reports: !call.report ? [] : call.reportFor === 'all' ? ['own', 'student', 'client'] : [call.reportFor],
    limitMegapixels: call.limit,
  };
}

async function readSettings({ preset, settings: path }: HandoverCall): Promise<HandoverSettings> {
  if (path === undefined) return PRESETS[preset ?? 'screen'];
  // A preset that was told in the call is what the file differs from.
  const check = (value: unknown) =>
    checkSettings(
      preset !== undefined && typeof value === 'object' && value !== null && !Array.isArray(value)
        ? { ...value, preset: preset as PresetName }
        : value,
    );
  return readJson(path, 'settings', check);
}

/** The profile, beside the settings file unless its path says otherwise. */
async function readProfileFile(
  { space }: HandoverSettings,
  settings: string | undefined,
): Promise<Uint8Array | null> {
  if (typeof space === 'string') return null;
  const path =
    isAbsolute(space.profile) || settings === undefined
      ? space.profile
      : join(dirname(settings), space.profile);
  try {
    const bytes = await readBytes(path);
    openProfile(bytes, space.profile);
    return bytes;
  } catch (error) {
    if (error instanceof FileTrouble) throw new WrongUse(`${error.sentence} ${error.todo}`);
    throw error;
  }
}
