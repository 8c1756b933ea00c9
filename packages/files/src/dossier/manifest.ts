import { checkIntent, checkRecipe } from '@halflight/engine';
import * as v from 'valibot';
import type { Work } from './work.ts';
import { hash, work } from './workSchema.ts';

/** `manifest.json` of a dossier: the work, and where the bytes that it names lie. */
export interface Manifest {
  readonly schema: 'halflight/dossier@1';
  /** Program that wrote it, for people. */
  readonly writer: string;
  /** When, ISO 8601. */
  readonly written: string;
  readonly work: Work;
  readonly files: readonly Thing[];
}

/** Bytes that belong to a work, known by their content. */
export interface Thing {
  /** SHA-256 in hexadecimal. */
  readonly hash: string;
  readonly bytes: number;
  readonly mediaType: string;
  /** Name inside the ZIP. */
  readonly path: string;
}

const KIND = 'halflight/dossier@';
const VERSION = 1;

/** Names we write: no way out of the folder, on any system. */
const path = v.pipe(
  v.string(),
  v.regex(/^(?!.*(?:^|\/)\.\.?(?:\/|$))[\w.-]+(?:\/[\w.-]+)*$/, 'is no name inside a dossier'),
);

const manifest = v.looseObject({
  schema: v.literal('halflight/dossier@1'),
  writer: v.optional(v.string(), ''),
  written: v.optional(v.string(), ''),
  work,
  files: v.array(
    v.looseObject({
      hash,
      bytes: v.pipe(v.number(), v.integer(), v.minValue(0)),
      mediaType: v.string(),
      path,
    }),
  ),
});

/** A manifest that was looked through, or what is wrong with it. `newer` is the version of a newer program. */
export type CheckedManifest =
  | { readonly ok: true; readonly manifest: Manifest }
  | { readonly ok: false; readonly trouble: string; readonly newer?: number };

/** Looks through a manifest that comes from a file; fields that are not known here are kept as they are. */
export function checkManifest(value: unknown): CheckedManifest {
  const schema = (value as { schema?: unknown } | null)?.schema;
  const version =
    typeof schema === 'string' && schema.startsWith(KIND) ? Number(schema.slice(KIND.length)) : 0;
  if (version > VERSION) return { ok: false, trouble: `it is of version ${version}`, newer: version };
  const result = v.safeParse(manifest, value);
  if (!result.success) {
    const [issue] = result.issues;
    const where = v.getDotPath(issue);
    return { ok: false, trouble: `${where === null ? 'the whole' : `“${where}”`} ${said(issue)}` };
  }
  const checked = result.output as unknown as Manifest;
  const intents = [checked.work.intent, ...checked.work.pastIntents.map((past) => past.intent)];
  for (const part of [
    ...intents.map(checkIntent),
    ...(checked.work.recipe ? [checkRecipe(checked.work.recipe)] : []),
  ])
    if (!part.ok) return { ok: false, trouble: `its intent or edit: ${part.trouble.replace(/\.$/, '')}` };
  return { ok: true, manifest: checked };
}

function said(issue: v.BaseIssue<unknown>): string {
  if (issue.received === 'undefined') return 'is missing';
  if (/^(should|is)/.test(issue.message)) return issue.message;
  return `should be ${issue.expected ?? issue.type}, but is ${issue.received}`;
}
