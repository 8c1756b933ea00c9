import type { Recipe } from '@halflight/engine';
import type { ReportKind } from '@halflight/pages';
import { useState } from 'react';
import type { Work } from '../../document/work.ts';
import { Chosen } from '../../parts/Chosen.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { Ways } from '../../parts/Ways.tsx';
import type { ReportFormat, ReportWish } from '../../picture/handover-desk.ts';
import { pictures } from '../../state/desks.ts';
import { useHandover } from '../../state/handover.ts';
import { type Thing, tell, useWrite } from '../../state/write.ts';
import { reportWish } from './reportWish.ts';

const KINDS: readonly (readonly [ReportKind, string, string])[] = [
  [
    'own',
    'yourself',
    'Everything: what was decided, found and answered, the edit, the drawings, the versions.',
  ],
  ['student', 'a student', 'What already works, and what to do next.'],
  ['client', 'a client', 'Before and after, and how it came to be; no findings.'],
];
const FORMATS: readonly (readonly [ReportFormat, string])[] = [
  ['pdf', 'a PDF'],
  ['html', 'one HTML file'],
  ['png', 'one picture for a chat (PNG)'],
];

/** A page about the work, in three kinds. */
export function ReportPart({ work, recipe }: { work: Work; recipe: Recipe }) {
  const [kind, setKind] = useState<ReportKind>('own');
  const [format, setFormat] = useState<ReportFormat>('pdf');
  const { author } = useHandover((state) => state.settings.metadata);
  const running = useWrite((state) => state.running !== null);
  const about = KINDS.find(([name]) => name === kind)![2];
  const formats = kind === 'own' ? [...FORMATS, ['json', 'JSON for programs'] as const] : FORMATS;
  const given = formats.some(([name]) => name === format) ? format : 'pdf';
  const name = `${work.title.replace(/[\\/:*?"<>|]+/g, ' ')} ${kind === 'own' ? 'report' : `for a ${kind}`}.${given}`;
  const thing: Thing = {
    name,
    async make() {
      tell({ doing: 'Setting the page', share: null });
      const wish: ReportWish = await reportWish(work, author);
      return { name, blob: await pictures.desk.report(recipe, kind, given, wish), readBack: true };
    },
  };
  return (
    <NoteFrame name="handover report" sentence="A page about it, for yourself, a student or a client.">
      <p>
        The page is for{' '}
        <Chosen
          label="Whom the page is for"
          value={kind}
          options={KINDS.map(([value, words]) => [value, words] as const)}
          onChoose={(value) => setKind(value as ReportKind)}
        />
        , as{' '}
        <Chosen
          label="Format of the page"
          value={given}
          options={formats}
          onChoose={(value) => setFormat(value as ReportFormat)}
        />
        .
      </p>
      <p className="quiet">{about}</p>
      {!running && (
        <p className="answers">
          <Ways thing={thing} of={JSON.stringify([work.id, recipe, kind, given])} what="the page" />
        </p>
      )}
    </NoteFrame>
  );
}
