// `node scripts/fuzz.mjs [KIND…] [--count N] [--seed S]`: gives changed samples of everything that comes from
// outside to the product, in processes of their own. Each input must be read or refused in words, within 10 s and
// 1.5 GB, and nothing may be written anywhere. An input is made again from its kind, seed and number.
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import { buildPackages } from './house/build.mjs';
import { ROOT, say, tool } from './house/run.mjs';

const LONGEST = 10_000;
const MOST_MEMORY = 1.5e9;
const STARTING = 60_000;
const FOUND_ENOUGH = 20;
const DECODING = ['picture', 'openraster'];
// The decoder's memory never shrinks, and it is not made to refuse ten thousand pictures in one life.
const BATCH = 250;
const CHILD = `${ROOT}.cache/fuzz/js/scripts/fuzz/child.js`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { count: { type: 'string', default: '10000' }, seed: { type: 'string', default: '1' } },
});
if ((await buildPackages()) !== 0 || (await tool('typescript/bin/tsc', ['-p', 'scripts/fuzz'])) !== 0)
  process.exit(1);
const { KINDS } = await import(`file://${CHILD.replace('child.js', 'kinds.js')}`);
const unknown = positionals.find((kind) => !(kind in KINDS));
if (unknown) {
  console.error(`There is no kind “${unknown}”; there are ${Object.keys(KINDS).join(', ')}.`);
  process.exit(2);
}

let findings = 0;
for (const kind of positionals.length > 0 ? positionals : Object.keys(KINDS))
  findings += await tryKind(kind, Number(values.count), values.seed);
// What the kinds opened to be named must not keep the process.
process.exit(findings === 0 ? 0 : 1);

async function tryKind(kind, count, seed) {
  const started = performance.now();
  const counts = { read: 0, refused: 0 };
  const found = [];
  let peak = 0;
  for (let from = 0; from < count && found.length < FOUND_ENOUGH; ) {
    const run = await runChild(
      kind,
      seed,
      from,
      DECODING.includes(kind) ? Math.min(count, from + BATCH) : count,
    );
    for (const key of Object.keys(counts)) counts[key] += run.counts[key] ?? 0;
    found.push(...run.found);
    peak = Math.max(peak, run.peak);
    from = run.next;
  }
  const seconds = ((performance.now() - started) / 1000).toFixed(0);
  say(
    `${kind}: ${count} inputs, ${counts.read} read, ${counts.refused} refused, ${found.length} findings; ` +
      `peak ${(peak / 1e6).toFixed(0)} MB, ${seconds} s`,
  );
  for (const { number, what } of found) console.log(`  ${kind} ${seed} ${number}: ${what}`);
  return found.length;
}

/** Runs one process until it is done, or until an input ends it. */
function runChild(kind, seed, from, to) {
  const folder = mkdtempSync(join(tmpdir(), 'halflight-fuzz-'));
  const child = spawn(
    process.execPath,
    [...forbidding(kind), '--no-warnings', CHILD, kind, seed, from, to].map(String),
    {
      cwd: folder,
      env: { ...process.env, TMPDIR: folder, HOME: folder },
      stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
    },
  );
  return new Promise((resolve) => {
    const counts = { read: 0, refused: 0 };
    const found = [];
    let at = from;
    let peak = 0;
    let over = null;
    let ended = false;
    let errors = '';
    let told = performance.now() + STARTING;
    child.stderr.on('data', (text) => {
      errors = (errors + text).slice(-1500);
    });
    createInterface({ input: child.stdio[3] }).on('line', (line) => {
      const news = JSON.parse(line);
      told = performance.now();
      if (news.at !== undefined) at = news.at;
      if (news.finding !== undefined) found.push({ number: news.finding, what: news.what });
      if (news.peak !== undefined) {
        if (news.peak > MOST_MEMORY && peak <= MOST_MEMORY)
          end(`memory of ${(news.peak / 1e6).toFixed(0)} MB`);
        peak = Math.max(peak, news.peak);
      }
      if (news.end) {
        Object.assign(counts, news.end);
        ended = true;
      }
    });
    const end = (why) => {
      over ??= why;
      child.kill('SIGKILL');
    };
    const watch = setInterval(() => {
      if (performance.now() - told > LONGEST) end(`no answer within ${LONGEST / 1000} s`);
      const memory = residentBytes(child.pid);
      if (memory > MOST_MEMORY) end(`memory of ${(memory / 1e6).toFixed(0)} MB`);
    }, 100);
    child.once('close', (code, signal) => {
      clearInterval(watch);
      const left = readdirSync(folder, { recursive: true });
      rmSync(folder, { recursive: true, force: true });
      if (left.length > 0) found.push({ number: at, what: `files were written: ${left.join(', ')}` });
      if (!ended) {
        found.push({ number: at, what: over ?? `the process ended (${signal ?? code}). ${errors}` });
      }
      resolve({ counts, found, peak, next: ended ? to : at + 1 });
    });
  });
}

/**
 * Options by which Node itself lets nothing be written. Decoders are compiled code and start threads, which does not
 * go with it: what they write shows in the empty folder that they work in.
 */
function forbidding(kind) {
  const flag = ['--permission', '--experimental-permission'].find((it) =>
    process.allowedNodeEnvironmentFlags.has(it),
  );
  return DECODING.includes(kind) || !flag ? [] : [flag, '--allow-fs-read=*'];
}

/** Memory of a process in bytes, 0 where the system does not tell. */
function residentBytes(pid) {
  try {
    return 1024 * Number(/VmRSS:\s*(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0);
  } catch {
    return 0;
  }
}
