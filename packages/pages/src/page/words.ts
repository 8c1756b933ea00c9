/** Said once in every report and help: readings never judge. */
export const ADVICE = 'Readings are advice; the eye decides.';

/** Said wherever pages about the works of others are made. */
export const CONSENT =
  'This page shows the work of another person: pass it on only if they agree. It was made on one machine and sent nowhere.';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** "12 March 2026", from ISO 8601; the text as it is when it is no date. */
export function dayOf(iso: string): string {
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)/.exec(iso) ?? [];
  const name = MONTHS[Number(month) - 1];
  return name ? `${Number(day)} ${name} ${year}` : iso;
}

/** Ends a sentence that has no end. */
export function ended(text: string): string {
  return /[.!?…]$/.test(text) ? text : `${text}.`;
}
