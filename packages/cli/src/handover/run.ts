import { basename, join } from 'node:path';
import { type PresetName, percent, sixDigits } from '@halflight/engine';
import { openCodec } from '@halflight/files/node';
import type { ReportKind } from '@halflight/pages';
import { tellTrouble, troubleOf } from '../check/outcome.ts';
import { openProgress } from '../terminal/progress.ts';
import { EXIT } from '../trouble.ts';
import { type HandedOver, handOver, TOLD_FROM } from './one.ts';
import { type Order, readOrder } from './settings.ts';

/** The call as it was typed. */
export interface HandoverCall {
  readonly out: string;
  readonly recipe?: string;
  readonly preset?: PresetName;
  readonly settings?: string;
  readonly table?: boolean;
  readonly palette?: boolean;
  readonly report?: boolean;
  readonly reportFor: ReportKind | 'all';
  readonly lost?: boolean;
  readonly process?: boolean;
  readonly intent?: string;
  readonly baseline?: string;
  readonly json?: boolean;
  readonly limit: number;
}

/** Hands every picture over; gives the exit code. */
export async function handover(pictures: readonly string[], call: HandoverCall): Promise<number> {
  const order = await readOrder(call);
  const codec = await openCodec();
  const progress = openProgress(pictures.length);
  const taken = new Set<string>();
  let failed = 0;
  for (const [i, path] of pictures.entries()) {
    try {
      const done = await handOver(codec, path, i + 1, order, pictures, taken);
      progress.pause();
      process.stdout.write(call.json ? `${lineOf(done, order)}\n` : textOf(done, order));
      if (!call.json) for (const note of done.notes) process.stderr.write(`${note}\n`);
    } catch (error) {
      failed++;
      progress.pause();
      const name = basename(path);
      if (call.json) process.stdout.write(`${troubleLine(error, name)}\n`);
      tellTrouble(error, name);
    }
    progress.step(basename(path));
  }
  progress.end();
  codec.close();
  return failed > 0 ? EXIT.unread : EXIT.done;
}

const SCHEMA = 'halflight/handed-over@1';

function lineOf({ picture, file, files, lost, ink, table, notes }: HandedOver, { settings }: Order): string {
  const { name, width, height, depth, space, pixelsPerInch } = file;
  return JSON.stringify(
    {
      schema: SCHEMA,
      picture: { name: picture },
      preset: settings.preset,
      file: { name, width, height, depth, space, pixelsPerInch, checked: 'saved file checked' },
      files,
      lost,
      ink,
      table,
      notes,
    },
    sixDigits,
  );
}

function troubleLine(error: unknown, name: string): string {
  const { sentence, todo } = troubleOf(error, name);
  return JSON.stringify({ schema: SCHEMA, picture: { name }, error: `${sentence} ${todo}` });
}

/** The files a line each, the picture's own with what it is; then what a person should know. */
function textOf({ file, files, lost, ink, table }: HandedOver, { folder, lost: looked }: Order): string {
  const { name, width, height, depth, space, pixelsPerInch } = file;
  const density = pixelsPerInch ? `, ${Math.round(pixelsPerInch)} pixels an inch` : '';
  const lines = [
    `${join(folder, name)}: ${width} × ${height}, ${depth} bit, ${space}${density}; saved file checked`,
    ...files.slice(1).map((other) => join(folder, other)),
  ];
  if (lost.share >= TOLD_FROM) {
    const what = `  ${space} can’t show ${percent(lost.share)} of the picture as it is`;
    lines.push(
      !looked
        ? `${what}; --lost shows where and looks for an edit that calms it.`
        : lost.calms
          ? `${what}; the edit in the calmer recipe leaves less than 1 %.`
          : `${what}; no single edit calms that.`,
    );
  }
  if (ink)
    lines.push(
      `  Ink: ${Math.round(ink.most)} % at most, ${Math.round(ink.mean)} % on the whole; ${percent(ink.overLimit)} of the area over 300 %.`,
    );
  if (table && table.leftOut.length > 0)
    lines.push(`  Not in the table, because they work in an area: ${table.leftOut.join(', ')}.`);
  return `${lines.join('\n')}\n`;
}
