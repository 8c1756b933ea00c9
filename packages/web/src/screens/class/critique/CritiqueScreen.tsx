import type { Finding } from '@halflight/engine';
import { useEffect, useMemo, useState } from 'react';
import { go } from '../../../app/route.ts';
import { Frame } from '../../../parts/Frame.tsx';
import { NoteFrame } from '../../../parts/NoteFrame.tsx';
import { NotesPart } from '../../../parts/NotesPart.tsx';
import { Stage, zoomStage } from '../../../parts/stage/Stage.tsx';
import { TaskLine } from '../../../parts/stage/TaskLine.tsx';
import { giveUpTask } from '../../../parts/stage/task.ts';
import type { StageEdit } from '../../../parts/stage/usePainting.ts';
import { performOnClass } from '../../../state/class.ts';
import {
  type ClassDocument,
  type ClassWork,
  type Critique,
  critiqueOf,
  inPageOrder,
  type Point,
  spokenLength,
} from '../../../state/class-document.ts';
import { saveStudentDossier } from '../../../state/class-pages.ts';
import type { ReadWork } from '../../../state/class-reading.ts';
import { set, useSession } from '../../../state/session.ts';
import { UndoSentence } from '../ClassWay.tsx';
import { KeptText } from '../KeptText.tsx';
import { calledOf, spokenWords } from '../words.ts';
import { EditPart } from './EditPart.tsx';
import { FindingsToTake, StrongToSay } from './FindingsToTake.tsx';
import { PointMarks } from './PointMarks.tsx';
import { PointNote } from './PointNote.tsx';
import { addPoint, change, drawMark } from './saying.ts';
import { useEditedPicture, usePagePicture } from './usePagePicture.ts';

/** One work of the class: the picture with what is said on it, and the critique in the margin. */
export function CritiqueScreen({ now, work, read }: { now: ClassDocument; work: ClassWork; read: ReadWork }) {
  const critique = critiqueOf(now, work.id);
  const points = inPageOrder(critique.points);
  useEffect(
    () => () => {
      giveUpTask();
      set({ openNote: null, pointedNote: null });
    },
    [],
  );
  return (
    <Frame
      wall={<CritiqueWall now={now} work={work} read={read} critique={critique} points={points} />}
      margin={
        <>
          <NotesPart title={calledOf(work)} label="What is said about the work">
            {read.remarks.map((remark) => (
              <p key={remark} className="remark">
                {remark}
              </p>
            ))}
            <Points work={work.id} points={points} kind="praise" phrases={now.phrases} />
            <StrongToSay work={work.id} strong={read.fine} said={new Set(points.map(({ text }) => text))} />
            <Points work={work.id} points={points} kind="work" phrases={now.phrases} />
            <p>
              Tap the picture to set a pin there, or{' '}
              <button type="button" className="clause" onClick={() => drawMark(work.id, 'stroke')}>
                draw a stroke
              </button>
              ,{' '}
              <button type="button" className="clause" onClick={() => drawMark(work.id, 'outline')}>
                draw an outline
              </button>
              , or{' '}
              <button
                type="button"
                className="clause"
                onClick={() => addPoint(work.id, { kind: 'work', text: '', marks: [] }, 'a point')}
              >
                say it without a mark
              </button>
              .
            </p>
            <h3 className="points-title">What the readings find</h3>
            <FindingsToTake
              work={work.id}
              read={read}
              taken={new Set(critique.points.map(({ finding }) => finding))}
            />
            <h3 className="points-title">A small edit</h3>
            <EditPart work={work} critique={critique} />
            <KeptText
              label="One sentence for the end"
              value={critique.closing ?? ''}
              rows={2}
              onKeep={(closing) => change(work.id, 'the last sentence', (it) => withClosing(it, closing))}
            />
            <p className="quiet">{spokenWords(spokenLength(critique))}</p>
          </NotesPart>
          <section className="rest-part" aria-label="The way around">
            <CritiqueWay now={now} work={work} />
          </section>
        </>
      }
    />
  );
}

function withClosing({ closing: _closing, ...rest }: Critique, closing: string): Critique {
  return closing ? { ...rest, closing } : rest;
}

function Points({
  work,
  points,
  kind,
  phrases,
}: {
  work: string;
  points: readonly Point[];
  kind: Point['kind'];
  phrases: readonly string[];
}) {
  const mine = points.filter((point) => point.kind === kind);
  return (
    <>
      <h3 className="points-title">{kind === 'praise' ? 'What is strong' : 'What to work on'}</h3>
      {mine.length > 0 && (
        <ul className="notes">
          {mine.map((point, index) => (
            <PointNote
              key={point.id}
              work={work}
              point={point}
              number={points.indexOf(point) + 1}
              place={{ before: index > 0, after: index < mine.length - 1 }}
              phrases={phrases}
            />
          ))}
        </ul>
      )}
      {kind === 'praise' ? (
        <p>
          <button
            type="button"
            className="clause"
            onClick={() => addPoint(work, { kind: 'praise', text: '', marks: [] }, 'praise')}
          >
            {mine.length === 0 ? 'Say what is strong' : 'Say what else is strong'}
          </button>
          .
        </p>
      ) : (
        mine.length === 0 && <p className="quiet">Nothing yet.</p>
      )}
    </>
  );
}

/** The picture as it was handed in: nothing is fetched from elsewhere when one comes closer. */
const AS_IT_IS: StageEdit = { image: null, window: null, fade: null, part: 1 };

function CritiqueWall({
  now,
  work,
  read,
  critique,
  points,
}: {
  now: ClassDocument;
  work: ClassWork;
  read: ReadWork;
  critique: Critique;
  points: readonly Point[];
}) {
  const picture = usePagePicture(work, read);
  const after = useEditedPicture(critique.proposal);
  const [edited, setEdited] = useState(false);
  const [words, setWords] = useState(false);
  const pointed = useSession((session) => session.pointedNote);
  const shown = useMemo(() => {
    const finding = read.findings.find(({ key }) => key === pointed);
    return finding ? withoutMap(finding) : null;
  }, [read, pointed]);
  const edit = useMemo(
    (): StageEdit => (edited && after ? { ...AS_IT_IS, image: after } : AS_IT_IS),
    [edited, after],
  );
  const { width, height, depth } = read.facts;
  return (
    <>
      <header className="headline">
        <h1>{calledOf(work)}</h1>
        <button type="button" className="clause" onClick={() => go({ screen: 'class', of: null })}>
          {now.title}
        </button>
      </header>
      <div className="stage-place">
        {picture && (
          <>
            <Stage
              picture={picture}
              findings={NONE}
              shown={shown}
              edit={edit}
              pointWords="sets a pin"
              onPoint={(x, y) =>
                addPoint(work.id, { kind: 'work', text: '', marks: [{ kind: 'pin', at: [x, y] }] }, 'a pin')
              }
            />
            <PointMarks work={work.id} points={points} size={picture.facts} words={words} />
          </>
        )}
        <TaskLine />
      </div>
      <footer className="nearness">
        <p>
          {width} × {height}, {depth} bit
        </p>
        <p>
          {after && (
            <button type="button" className="clause" aria-pressed={edited} onClick={() => setEdited(!edited)}>
              {edited ? 'as it was handed in' : 'with the edit'}
            </button>
          )}{' '}
          {points.some(({ marks, text }) => marks.length > 0 && text) && (
            <button type="button" className="clause" aria-pressed={words} onClick={() => setWords(!words)}>
              {words ? 'numbers only' : 'words on the picture'}
            </button>
          )}{' '}
          {picture &&
            (['closer', 'farther', 'whole'] as const).map((wish) => (
              <button key={wish} type="button" className="clause" onClick={() => zoomStage(picture, wish)}>
                {wish}
              </button>
            ))}
        </p>
      </footer>
    </>
  );
}

const NONE: readonly Finding[] = [];

/** Maps belong to the picture that is open on the desk; here the outlines tell where. */
function withoutMap({ map: _map, ...finding }: Finding): Finding {
  return finding;
}

/** Whose work it is, the neighbours in the order of the files, and the way back. */
function CritiqueWay({ now, work }: { now: ClassDocument; work: ClassWork }) {
  const { works } = now;
  const at = works.findIndex(({ id }) => id === work.id);
  const name = (change: { who?: string; title?: string }): void =>
    performOnClass({
      kind: 'name',
      words: 'the name of a work',
      id: work.id,
      who: work.who,
      title: work.title,
      ...change,
    });
  const to = (other: ClassWork | undefined, words: string) =>
    other && (
      <button type="button" className="clause" onClick={() => go({ screen: 'class', of: other.id })}>
        {words}
      </button>
    );
  return (
    <>
      <ul className="notes">
        <NoteFrame name="whose" sentence={`The work is by ${work.who}.`} aside={work.file}>
          <KeptText label="Whose work it is" value={work.who} onKeep={(who) => who && name({ who })} />
          <KeptText label="Its title" value={work.title} onKeep={(title) => name({ title })} />
          <p>
            <button type="button" className="clause" onClick={() => void saveStudentDossier(work)}>
              Save its dossier for them
            </button>
            : the picture as it was handed in, with what was asked for, to go on with in this program. Give it
            to nobody else.
          </p>
        </NoteFrame>
      </ul>
      <nav className="way" aria-label="The way around">
        <UndoSentence />
        <p>
          {to(works[at + 1], 'The next work')}
          {works[at + 1] && works[at - 1] && '; '}
          {to(works[at - 1], works[at + 1] ? 'the one before' : 'The work before')}
          {(works[at + 1] || works[at - 1]) && '; '}
          <button type="button" className="clause" onClick={() => go({ screen: 'class', of: null })}>
            the class
          </button>
          .
        </p>
      </nav>
    </>
  );
}
