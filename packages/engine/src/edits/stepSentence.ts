import { listOf } from '../findings/wording.ts';
import type { Parameter, StepKind } from './step.ts';

/**
 * The sentence of a kind with a slot {key} for each parameter. Of the parts in its brackets only those are told whose
 * parameters are wanted; all of them when none is.
 */
export function stepSentence(
  { sentence, parameters }: StepKind,
  isTold: (parameter: Parameter) => boolean = () => true,
): string {
  return sentence.replace(/\[(.+)\]/, (_, list: string) => {
    const parts = list.split('|');
    const told = parts.filter((part) =>
      parameters.some((parameter) => part.includes(`{${parameter.key}}`) && isTold(parameter)),
    );
    return listOf(told.length > 0 ? told : parts);
  });
}
