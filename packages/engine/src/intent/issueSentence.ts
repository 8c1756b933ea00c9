import * as v from 'valibot';

/** What a schema found wrong with a value from a file, in a sentence that names the place. */
export function issueSentence(issue: v.BaseIssue<unknown>): string {
  if (issue.type === 'raw_check') return issue.message;
  const path = v.getDotPath(issue);
  const place = path === null ? 'The whole' : `“${path}”`;
  if (issue.type === 'check') return `${place} ${issue.message}.`;
  if (issue.received === 'undefined') return `${place} is missing.`;
  return `${place} should be ${issue.expected ?? issue.type}, but is ${issue.received}.`;
}
