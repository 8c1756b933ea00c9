import type { Proposal } from '@halflight/engine';
import { proxy } from 'comlink';
import { create } from 'zustand';
import { recipeOf } from '../document/recipe.ts';
import type { Progress } from '../picture/desk.ts';
import { pictures } from './desks.ts';
import { perform } from './edit.ts';
import { get, say, set, trouble } from './session.ts';

/** What was proposed for the work that is open. */
interface ProposalState {
  readonly running: Progress | null;
  /** The last proposal with the work it belongs to. */
  readonly made: { readonly work: string; readonly proposal: Proposal } | null;
}

export const useProposal = create<ProposalState>(() => ({ running: null, made: null }));

/** Looks for the smallest edit and takes it as the edit of the work: every step can then be weakened or removed. */
export async function proposeEdit(): Promise<void> {
  const work = get().history?.present;
  if (!work || useProposal.getState().running) return;
  const tell = (running: Progress): void => {
    if (useProposal.getState().running) useProposal.setState({ running });
  };
  const { kept = [] } = recipeOf(work);
  useProposal.setState({ running: { doing: 'Reading the picture', share: null } });
  try {
    const proposal = await pictures.desk.propose(work.intent, work.answers, kept, proxy(tell));
    if (proposal === null || get().history?.present.id !== work.id) return;
    useProposal.setState({ made: { work: work.id, proposal } });
    say(proposal.summary);
    if (proposal.recipe.steps.length > 0) {
      perform({ kind: 'takeRecipe', title: 'the proposal', recipe: { ...proposal.recipe, kept } });
      set({ openNote: null });
    }
  } catch (error) {
    trouble('reading', `No edit could be proposed: ${(error as Error).message}`);
  } finally {
    useProposal.setState({ running: null });
  }
}

export function stopProposing(): void {
  useProposal.setState({ running: null });
  void pictures.desk.stopProposing();
}

/** Protects an outline from proposals, or none any more. */
export function protect(outline: readonly number[] | null): void {
  const work = get().history?.present;
  if (!work) return;
  const recipe = recipeOf(work);
  const kept = outline ? [...(recipe.kept ?? []), outline] : [];
  const title = outline ? 'protecting a place' : 'protecting nothing any more';
  perform({ kind: 'takeRecipe', title, recipe: { ...recipe, kept } });
}
