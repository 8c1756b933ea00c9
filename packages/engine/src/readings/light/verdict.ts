import type { Evidence } from '../reading.ts';
import type { Choice, Doubt } from './choose.ts';
import type { Statement } from './types.ts';

/** Votes for a light against votes for plain darkening: above, the picture clearly carries it. */
const CLEARLY = 2;
/** Strong evidence: so many surfaces, and so much of the chosen changes on the curve. Our defaults. */
const STRONG = { surfaces: 5, antisymmetry: 0.85, fit: 0.35, pairs: 300 };
/** Plain darkening is a statement of its own when so many surfaces and pairs show it, and so little else. */
const PLAIN = { surfaces: 4, pairs: 400, against: 4 };

/** What can be said of the whole picture, and how sure it is. */
export function verdictOf(choice: Choice, declared: boolean): { statement: Statement; evidence: Evidence } {
  const { candidate, fit, votes } = choice;
  if (declared) {
    if (votes.pairs < 60) {
      return {
        statement: 'unknown',
        evidence: {
          level: 'weak',
          reason:
            'Too little of the picture goes from light into shade to hold it against the light you decided.',
        },
      };
    }
    return {
      statement: choice.carries > CLEARLY ? 'carries' : 'partly',
      evidence: {
        level: candidate && votes.pairs > 300 ? 'strong' : 'fair',
        reason: 'The light is declared; every surface seen lit and shaded is held against it.',
      },
    };
  }
  if (candidate && fit) {
    const strong =
      candidate.surfaces >= STRONG.surfaces &&
      candidate.antisymmetry >= STRONG.antisymmetry &&
      fit.fit >= STRONG.fit &&
      fit.pairs >= STRONG.pairs;
    const surfaces = Math.round(candidate.surfaces);
    return {
      statement: choice.carries > CLEARLY ? 'carries' : 'partly',
      evidence: strong
        ? {
            level: 'strong',
            reason: `About ${surfaces} surfaces change colour the same way from light to shade.`,
          }
        : {
            level: 'fair',
            reason: 'Several surfaces change colour the same way, but few or not quite alike.',
          },
    };
  }
  const other = votes.candidates[0]?.strength ?? 0;
  if (
    votes.stillSurfaces >= PLAIN.surfaces &&
    votes.pairs >= PLAIN.pairs &&
    votes.still > PLAIN.against * other
  ) {
    return {
      statement: 'none',
      evidence: {
        level: votes.stillSurfaces >= 6 ? 'strong' : 'fair',
        reason: `About ${Math.round(votes.stillSurfaces)} surfaces go into the dark without changing colour.`,
      },
    };
  }
  return unknown(
    votes.pairs < 100 ? 'Hardly any surface is seen both lit and shaded' : DOUBTS[choice.doubt ?? 'few'],
  );
}

const DOUBTS: Record<Doubt, string> = {
  rival: 'The surfaces speak of two different lights',
  few: 'Too few different surfaces agree on how light changes their colour',
  air: 'The air in the distance turns the colours much as a light would',
  pigment: 'All changes lie on one side of grey, as those of one pigment from deep to pale would',
  blend: 'The colours blend into each other more than light and shade meet',
};

function unknown(why: string): { statement: Statement; evidence: Evidence } {
  const reason = `${why}, so the light can’t be told from the picture; tell me what you decided.`;
  return { statement: 'unknown', evidence: { level: 'weak', reason } };
}
