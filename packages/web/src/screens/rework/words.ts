import {
  type AreaPart,
  sentence as capitalised,
  countWord,
  hueName,
  listOf,
  type Parameter,
  type Step,
  type StepKind,
  stepSentence,
} from '@halflight/engine';

/** A piece of a step's sentence: plain text, or the slot of a parameter. */
export type Piece = { readonly text: string } | { readonly parameter: Parameter };

/** "gather hues to the plan by {amount}" in pieces, beginning with a capital. */
export function piecesOf(kind: StepKind): Piece[] {
  const { parameters } = kind;
  return stepSentence(kind)
    .split(/(\{\w+\})/)
    .flatMap((text, index): Piece[] => {
      if (text === '') return [];
      const parameter = parameters.find(({ key }) => text === `{${key}}`);
      if (parameter) return [{ parameter }];
      return [{ text: index === 0 ? capitalised(text) : text }];
    });
}

/** A step of a value that crosses its range in about a hundred pulls: 1, 2 or 5 times a power of ten. */
export function stepOf({ min, max, digits }: Parameter): number {
  const wanted = (max - min) / 100;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const nice = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= wanted * 0.7) ?? wanted;
  return Math.max(10 ** -digits, Number(nice.toFixed(4)));
}

/** Where a step works, to follow its sentence: "everywhere", "in values from 0 to 38". */
export function areaWords({ area }: Step): string {
  const parts = area?.parts ?? [];
  if (parts.length === 0) return 'everywhere';
  if (parts.length > 2) return `in an area of ${countWord(parts.length)} parts`;
  return parts.map((part, index) => `${lead(part, index)} ${shapeWords(part)}`).join(', ');
}

function lead({ joining }: AreaPart, index: number): string {
  if (joining === 'subtract') return index === 0 ? 'everywhere but' : 'but not';
  if (index === 0) return 'in';
  return joining === 'keep' ? 'within' : 'and in';
}

/** "values from 0 to 38", "blue hues", "a drawn outline", "a gradient". */
export function shapeWords(shape: AreaPart): string {
  switch (shape.kind) {
    case 'values':
      return `values from ${Math.round(shape.from)} to ${Math.round(shape.to)}`;
    case 'hues':
      return `${hueName(shape.hue)} hues`;
    case 'gradient':
      return 'a gradient';
    case 'outline':
      return shape.outlines.length === 1 ? 'one place' : `${countWord(shape.outlines.length)} places`;
  }
}

/** "blue and orange". */
export function familyWords(families: readonly { readonly hue: number }[]): string {
  const names = [...new Set(families.map(({ hue }) => hueName(hue)))];
  return names.length === 0 ? 'no hue yet' : listOf(names);
}
