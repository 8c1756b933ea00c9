import { InvalidArgumentError } from 'commander';

/** A whole number of at least 1, for commander. */
export function wholeNumber(text: string): number {
  if (!/^\d+$/.test(text) || Number(text) < 1)
    throw new InvalidArgumentError('It must be a whole number from 1 on.');
  return Number(text);
}

/** A port number, 0 for any free one; for commander. */
export function portNumber(text: string): number {
  if (!/^\d+$/.test(text) || Number(text) > 65535) throw new InvalidArgumentError('It must be 0 to 65535.');
  return Number(text);
}
