/** Said once in every report and help: readings never judge. */
export const ADVICE = 'Readings are advice; the eye decides.';

/** "a", "a and b", "a, b and c". */
export function listed(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}
