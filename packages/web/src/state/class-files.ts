import type { ClassPicture } from '../storage/class.ts';
import type { WorkFile } from '../workers/class/desk.ts';
import type { ClassWork } from './class-document.ts';
import { classStore } from './class-store.ts';

/** Files that the full store did not take: they last as long as the page. */
const unkept = new Map<string, Blob>();

/** Keeps the file of a work; false when the store is full, and it then lasts as long as the page. */
export async function keepFile(id: string, file: Blob, full: boolean): Promise<boolean> {
  try {
    if (full) throw new Error();
    await (await classStore()).keepFile(id, file);
    return true;
  } catch {
    unkept.set(id, file);
    return false;
  }
}

/** A work's file, to be read again. */
export async function fileOf({ id, file: name, mediaType }: ClassWork): Promise<WorkFile> {
  const file = unkept.get(id) ?? (await (await classStore()).file(id, mediaType));
  if (!file) throw new Error(`“${name}” is no longer in this browser’s store. Add its file again.`);
  return { id, file, name };
}

const addresses = new Map<string, string>();
const loose = new Map<string, Blob>();

/** Keeps a picture of a work; where the store is full it lasts as long as the page. */
export async function keepPicture(kind: ClassPicture, name: string, picture: Blob): Promise<void> {
  const keep = await classStore();
  await keep.keepPicture(kind, name, picture).catch(() => loose.set(`${kind}/${name}`, picture));
}

export async function keepEdited(name: string, picture: Blob): Promise<void> {
  await keepPicture('after', name, picture);
}

/** A kept picture of a work, null when the store has lost it. */
export async function classPicture(kind: ClassPicture, name: string): Promise<Blob | null> {
  return loose.get(`${kind}/${name}`) ?? (await classStore()).picture(kind, name);
}

/** Address of a small picture, kept as long as the page. */
export async function smallAddressOf(id: string): Promise<string | null> {
  const known = addresses.get(id);
  if (known) return known;
  const blob = await classPicture('small', id);
  if (blob === null) return null;
  const address = addresses.get(id) ?? URL.createObjectURL(blob);
  addresses.set(id, address);
  return address;
}

/** Forgets what lasts as long as the page. */
export function forgetClassFiles(): void {
  for (const address of addresses.values()) URL.revokeObjectURL(address);
  addresses.clear();
  loose.clear();
  unkept.clear();
}
