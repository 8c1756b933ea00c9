import './standback.css';
import { useEffect, useMemo, useState } from 'react';
import type { Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { Headline } from '../../parts/Headline.tsx';
import { Troubles } from '../../parts/Troubles.tsx';
import { WayAround } from '../../parts/WayAround.tsx';
import type { OpenedPicture, SeenMap } from '../../picture/desk.ts';
import type { LookFacts } from '../../picture/time-desk.ts';
import { answerLook, dropLook, keepLook, learnLookFacts, useLook } from '../../state/look.ts';
import { useSession } from '../../state/session.ts';
import { LookPicture } from './LookPicture.tsx';
import { type CarriedLook, carriedLooks, heatOf } from './looks.ts';
import { FIRST, PLACE, type Question, Questions } from './Questions.tsx';
import { QuietLook } from './QuietLook.tsx';
import { type Overlay, Told } from './Told.tsx';
import { Wish } from './Wish.tsx';

const ORDER: readonly Question[] = ['first', 'mood', 'pulledOut', 'verdict'];

/** Stand back: the quiet look, what is asked after it, and what looks have said. */
export default function StandBack({ work, picture }: { work: Work; picture: OpenedPicture }) {
  const { phase, facts, taken, answers } = useLook();
  const writable = useSession((session) => session.writable);
  const [question, setQuestion] = useState<Question>('first');
  const [overlay, setOverlay] = useState<Overlay | null>(null);
  const looks = useMemo(() => carriedLooks(work), [work]);
  const asking = phase === 'asking';

  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again for another picture or focus
  useEffect(() => void learnLookFacts(), [picture, work.intent.focus]);
  useEffect(() => dropLook, []);
  useEffect(() => {
    if (asking) setQuestion('first');
    if (asking) document.querySelector<HTMLElement>('.look-picture')?.focus();
  }, [asking]);

  const next = (): void => {
    const following = ORDER[ORDER.indexOf(question) + 1];
    // Whether it is done is the artist's to say.
    if (following === 'verdict' && taken?.by === 'guest') keepLook();
    else setQuestion(following);
  };
  const point = (place: [number, number]): void => {
    if (question === 'first') {
      answerLook({ first: place });
      next();
    } else answerLook({ pulledOut: { ...answers.pulledOut, place } });
  };
  const shown = asking ? marksOf(question, answers) : overlay === 'heat' ? begunAt(looks) : [];

  return (
    <Frame
      wall={
        <>
          <Headline work={work} />
          <LookPicture
            picture={picture}
            mirrored={asking && (taken?.mirrored ?? false)}
            marks={shown}
            map={asking ? null : mapOf(overlay, looks, facts, picture)}
            asking={asking ? (question === 'first' ? FIRST : question === 'pulledOut' ? PLACE : null) : null}
            onPoint={point}
          />
        </>
      }
      margin={
        <>
          <section className="notes-part" aria-label="Stand back">
            <Troubles at={['opening', 'keeping', 'reading']} />
            <h2 className="part-title" data-heading tabIndex={-1}>
              Stand back
            </h2>
            <div className="look-part">
              {asking ? <Questions work={work} question={question} onNext={next} /> : <Wish />}
              {!writable && (
                <p className="quiet">
                  Looks are not written down here: the work is open in another tab, or the picture is a paste
                  that is not kept.
                </p>
              )}
            </div>
          </section>
          <section className="rest-part" aria-label="What looks said, and the way around">
            {!asking && (
              <div className="look-part">
                <Told looks={looks} facts={facts} overlay={overlay} onOverlay={setOverlay} />
              </div>
            )}
            <WayAround />
          </section>
        </>
      }
      over={phase === 'looking' && <QuietLook picture={picture} average={facts?.average ?? null} />}
    />
  );
}

type Places = readonly (readonly [number, number])[];

function marksOf(
  question: Question,
  { first, pulledOut }: ReturnType<typeof useLook.getState>['answers'],
): Places {
  if (question === 'pulledOut') return pulledOut?.place ? [pulledOut.place] : [];
  return question === 'mood' && first ? [first] : [];
}

const begunAt = (looks: readonly CarriedLook[]): Places =>
  looks.flatMap(({ first }) => (first ? [first] : []));

function mapOf(
  overlay: Overlay | null,
  looks: readonly CarriedLook[],
  facts: LookFacts | null,
  { facts: { width, height } }: OpenedPicture,
): SeenMap | null {
  if (overlay === 'heat') return heatOf(begunAt(looks), width / height);
  if (overlay === 'predicted') return facts?.predicted ?? null;
  return overlay === 'focus' ? (facts?.focus ?? null) : null;
}
