import { sharedWords } from './sharedWords.ts';

/** Works that share a finding. */
export interface FindingGroup {
  /** Name of the kind of finding. */
  readonly key: string;
  /** Sentence and advice for all of them; of the work itself where it is one only. */
  readonly text: string;
  readonly todo: string;
  /** Places of the works, in their order. */
  readonly works: readonly number[];
}

interface Grouped {
  readonly key: string;
  readonly severity: number;
  readonly text: string;
  readonly todo: string;
}

/** What works share: every kind of finding with the works that have it, the most shared first. */
export function groupByFinding(works: readonly { readonly findings: readonly Grouped[] }[]): FindingGroup[] {
  const groups = new Map<string, { worst: Grouped; works: number[] }>();
  for (const [place, { findings }] of works.entries()) {
    for (const finding of findings) {
      const group = groups.get(finding.key) ?? { worst: finding, works: [] };
      if (finding.severity > group.worst.severity) group.worst = finding;
      if (group.works.at(-1) !== place) group.works.push(place);
      groups.set(finding.key, group);
    }
  }
  return [...groups.values()]
    .map(({ worst: { key, text, todo }, works: which }) => {
      const words = which.length > 1 ? sharedWords(key, { text, todo }) : { text, todo };
      return { key, ...words, works: which };
    })
    .sort((a, b) => b.works.length - a.works.length || (a.key < b.key ? -1 : 1));
}
