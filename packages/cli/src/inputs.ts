import { mkdir, readFile } from 'node:fs/promises';
import {
  type Baseline,
  type Checked,
  checkBaseline,
  checkIntent,
  type Intent,
  OPEN_INTENT,
} from '@halflight/engine';
import { WrongUse } from './trouble.ts';

/** The intent in a file; nothing decided when no file is given. */
export async function readIntent(path: string | undefined): Promise<Intent> {
  return path === undefined ? OPEN_INTENT : readJson(path, 'an intent', checkIntent);
}

/** The baseline in a file, or none. */
export async function readBaseline(path: string | undefined): Promise<Baseline | null> {
  return path === undefined ? null : readJson(path, 'a baseline', checkBaseline);
}

/** A JSON file that was looked through. Throws WrongUse with a sentence when it can't be read or does not fit. */
export async function readJson<T>(
  path: string,
  what: string,
  check: (value: unknown) => Checked<T>,
): Promise<T> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (error) {
    throw new WrongUse(`“${path}” can’t be read as ${what}: ${reasonOf(error)}.`);
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new WrongUse(`“${path}” is not ${what}: it is no JSON.`);
  }
  const checked = check(value);
  if (!checked.ok) throw new WrongUse(`“${path}” does not fit as ${what}: ${checked.trouble}`);
  return checked.value;
}

/** A folder to write into, made when it is missing; null when none is given. */
export async function writableFolder(path: string | undefined): Promise<string | null> {
  if (path === undefined) return null;
  try {
    await mkdir(path, { recursive: true });
    return path;
  } catch (error) {
    throw new WrongUse(`The folder “${path}” can’t be made: ${reasonOf(error)}. Name another one.`);
  }
}

const REASONS: Record<string, string> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  ENOTDIR: 'part of its path is a file',
  EEXIST: 'a file of that name is there',
  EACCES: 'permission is missing',
  EPERM: 'permission is missing',
  EROFS: 'nothing can be written there',
  ENOSPC: 'the disk is full',
};

/** Why a file operation failed, in words. */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return REASONS[code] ?? (error instanceof Error ? error.message : String(error));
}
