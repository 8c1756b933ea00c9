/** One line of the bench's table. */
export interface Figure {
  /** What was measured, e.g. "whole check, 24 MP". */
  readonly what: string;
  readonly value: number;
  readonly unit: 'ms' | 'ns a pixel' | 'MB' | 'kB' | 'pictures' | 'ΔE00';
  /** Something known, measured in the same run: the ratio tells, on any machine. */
  readonly reference?: { readonly what: string; readonly value: number };
  /** The most that is allowed: for the ratio where there is a reference, otherwise for the value. */
  readonly goal?: number;
}

/** A set of figures that are measured together. */
export type Rows = () => Promise<Figure[]>;

/** The number that the goal is about. */
export function judged({ value, reference }: Figure): number {
  return reference ? value / reference.value : value;
}

/** The figures as a table in Markdown, and as such easy to read in a terminal. */
export function table(figures: readonly Figure[]): string {
  const rows = figures.map((figure) => [
    figure.what,
    `${digits(figure.value)} ${figure.unit}`,
    figure.reference ? `${figure.reference.what}, ${digits(figure.reference.value)} ${figure.unit}` : '',
    figure.reference ? `${judged(figure).toFixed(2)} ×` : '',
    goalOf(figure),
  ]);
  const all = [['measured', 'takes', 'against', 'ratio', 'goal'], ...rows];
  const widths = all[0].map((_, column) => Math.max(...all.map((row) => row[column].length)));
  const line = (row: readonly string[]): string =>
    `| ${row.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`;
  const rule = `|${widths.map((width) => '-'.repeat(width + 2)).join('|')}|`;
  return [line(all[0]), rule, ...rows.map(line)].join('\n');
}

function goalOf(figure: Figure): string {
  if (figure.goal === undefined) return '';
  const goal = figure.reference ? `${figure.goal} ×` : `${figure.goal} ${figure.unit}`;
  return judged(figure) <= figure.goal ? `${goal}: met` : `${goal}: missed by ${missed(figure, figure.goal)}`;
}

function missed(figure: Figure, goal: number): string {
  return `${Math.ceil(100 * (judged(figure) / goal - 1))} %`;
}

function digits(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(3);
}
