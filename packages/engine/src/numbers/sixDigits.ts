/** For `JSON.stringify`: six digits are more than any reading is sure of; whole numbers keep all of theirs. */
export function sixDigits(_key: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(6)) : value;
}
