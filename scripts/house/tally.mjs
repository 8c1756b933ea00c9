import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { ROOT, tool } from './run.mjs';

/** Counts what passed and what failed over several runs. */
export function openTally() {
  const failures = [];
  let passed = 0;
  let failed = 0;
  return {
    /** A check that passes or fails as a whole. */
    check(name, code) {
      if (code === 0) passed++;
      else {
        failed++;
        failures.push(name);
      }
    },
    /** A run of tests; a file that could not be run at all counts as one failure. */
    tests(name, result) {
      passed += result.passed;
      failed += result.failed;
      if (result.failed > 0) failures.push(`${name} (${result.failed})`);
    },
    /** True when nothing failed; prints the line that scripts look for. */
    end() {
      if (failures.length > 0) console.log(`\nFailed: ${failures.join(', ')}`);
      console.log(`\n${passed} passed, ${failed} failed`);
      return failed === 0;
    },
  };
}

/** Runs Vitest with its usual output and counts the tests in its report. */
export async function vitest(name, args, env = {}) {
  const report = `${ROOT}.cache/reports/${name}.json`;
  mkdirSync(`${ROOT}.cache/reports`, { recursive: true });
  rmSync(report, { force: true });
  const code = await tool(
    'vitest/vitest.mjs',
    ['run', ...args, '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
    { env: { ...process.env, ...env } },
  );
  return count(report, code);
}

function count(report, code) {
  let results;
  try {
    results = JSON.parse(readFileSync(report, 'utf8')).testResults;
  } catch {
    return { passed: 0, failed: 1 };
  }
  const tests = results.flatMap((file) => file.assertionResults);
  const passed = tests.filter((test) => test.status === 'passed').length;
  const unrun = results.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  ).length;
  const failed = tests.filter((test) => test.status === 'failed').length + unrun;
  // Trouble outside of any test (an unhandled rejection) shows only in the exit code.
  return { passed, failed: failed === 0 && code !== 0 ? 1 : failed };
}
