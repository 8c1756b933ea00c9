import { type Proposal, type ProposalRequest, propose } from '@halflight/engine';
import { breathe } from '@halflight/files';

/** A worker may be deaf for so long, in milliseconds. */
const DEAF = 40;

/** Looks for the smallest edit, hearing others in between; null when the wish is no longer the newest. */
export async function proposeInPortions(
  request: ProposalRequest,
  tell: (share: number) => void,
  isNewest: () => boolean,
): Promise<Proposal | null> {
  const work = propose(request);
  let heard = performance.now();
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    if (performance.now() - heard < DEAF) continue;
    tell(next.value);
    await breathe();
    if (!isNewest()) return null;
    heard = performance.now();
  }
}
