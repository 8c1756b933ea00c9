import type { Finding } from '@halflight/engine';
import { useState } from 'react';
import { go } from '../../app/route.ts';
import type { Answer } from '../../document/work.ts';
import { Drawing } from '../../parts/Drawing.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { ReadingDetails } from '../../parts/ReadingDetails.tsx';
import { Swatches } from '../../parts/Swatches.tsx';
import type { SeenReading } from '../../picture/desk.ts';
import { answerFinding } from '../../state/answers.ts';
import { perform } from '../../state/edit.ts';
import { useSession } from '../../state/session.ts';
import { PlaceDrawing } from './PlaceDrawing.tsx';

/** A finding as a note: sentence, number, drawing, what to do, and the artist's three answers. */
export function FindingNote({
  finding,
  reading,
  answers,
}: {
  finding: Finding;
  reading: SeenReading | undefined;
  answers: readonly Answer[];
}) {
  const mine = answers.filter(({ key }) => key === finding.key);
  const whole = mine.find(({ outline }) => !outline);
  const aside = whole && <AnswerWords answer={whole} />;
  return (
    <NoteFrame name={finding.key} sentence={finding.text} aside={aside}>
      <p className="number quiet">{finding.number}</p>
      {reading && !drawnByPlace(finding) && <Drawing drawing={reading.drawing} reading={reading.id} />}
      <PlaceLines finding={finding} />
      <p className="todo">{finding.todo}</p>
      {finding.reading === 'openDecisions' && <ToLayers />}
      {mine.length > 0 ? <TakeBack answers={mine} finding={finding} /> : <Answers finding={finding} />}
      {reading && <ReadingDetails reading={reading} origin={finding.origin} />}
    </NoteFrame>
  );
}

/** Where decisions about layers are made. */
function ToLayers() {
  const work = useSession((session) => session.history?.present.id);
  if (work === undefined) return null;
  return (
    <p>
      <button type="button" className="clause" onClick={() => go({ screen: 'thinout', work })}>
        See what each layer is worth
      </button>{' '}
      and decide there.
    </p>
  );
}

/** Each place of the light has its own way from light into shade, drawn beside its colours. */
function drawnByPlace({ reading, places = [] }: Finding): boolean {
  return reading === 'light' && places.some(({ swatches }) => swatches?.length);
}

/** The places of a finding that have something to say or to show. */
function PlaceLines({ finding }: { finding: Finding }) {
  const telling = (finding.places ?? []).filter(({ note, swatches }) => note || swatches?.length);
  if (telling.length === 0) return null;
  return (
    <ul className="places">
      {telling.slice(0, 3).map((place) => (
        <li key={`${place.x} ${place.y}`}>
          {place.note && <p>{place.note}</p>}
          {place.swatches && <Swatches swatches={place.swatches} />}
          {drawnByPlace(finding) && <PlaceDrawing place={place} />}
        </li>
      ))}
    </ul>
  );
}

function Answers({ finding }: { finding: Finding }) {
  const [asking, setAsking] = useState<'meantSo' | 'wrong' | null>(null);
  const writable = useSession((session) => session.writable);
  if (!writable) return null;
  const places = (finding.places ?? []).filter(({ outline }) => outline);
  return (
    <div className="answers">
      <button type="button" className="answer" onClick={() => answerFinding(finding, 'willDo')}>
        will do
      </button>
      <button
        type="button"
        className="answer"
        aria-expanded={asking === 'meantSo'}
        onClick={() => setAsking(asking === 'meantSo' ? null : 'meantSo')}
      >
        meant so
      </button>
      <button
        type="button"
        className="answer"
        aria-expanded={places.length > 0 ? asking === 'wrong' : undefined}
        onClick={() =>
          places.length > 0 ? setAsking(asking === 'wrong' ? null : 'wrong') : answerFinding(finding, 'wrong')
        }
      >
        wrong
      </button>
      {asking === 'meantSo' && <Reason onGiven={(reason) => answerFinding(finding, 'meantSo', { reason })} />}
      {asking === 'wrong' && (
        <p className="asking">
          The reading is mistaken{' '}
          <button
            type="button"
            className="clause"
            onClick={() => answerFinding(finding, 'wrong', { places })}
          >
            {places.length === 1 ? 'at the place shown' : 'at the places shown'}
          </button>
          , or{' '}
          <button type="button" className="clause" onClick={() => answerFinding(finding, 'wrong')}>
            altogether
          </button>
          .
        </p>
      )}
    </div>
  );
}

function Reason({ onGiven }: { onGiven: (reason: string) => void }) {
  const [reason, setReason] = useState('');
  return (
    <form
      className="asking"
      onSubmit={(event) => {
        event.preventDefault();
        onGiven(reason.trim());
      }}
    >
      <label>
        Meant so, because
        <input
          // biome-ignore lint/a11y/noAutofocus: the field appears because its button was pressed
          autoFocus
          value={reason}
          onChange={(event) => setReason(event.target.value)}
          placeholder="the lamps may glow"
        />
      </label>
      <button type="submit" className="answer">
        keep it so
      </button>
    </form>
  );
}

function TakeBack({ answers, finding }: { answers: readonly Answer[]; finding: Finding }) {
  const writable = useSession((session) => session.writable);
  return (
    <p className="asking">
      <AnswerWords answer={answers[0]} />{' '}
      {writable && (
        <button
          type="button"
          className="clause"
          onClick={() => perform({ kind: 'takeBack', key: finding.key })}
        >
          Take that back
        </button>
      )}
    </p>
  );
}

function AnswerWords({ answer }: { answer: Answer }) {
  if (answer.kind === 'willDo' && answer.outcome) {
    const { version, state } = answer.outcome;
    return (
      <>
        You meant to do this: {state === 'smaller' ? 'smaller, not gone,' : 'still there'} in version{' '}
        {version}.
      </>
    );
  }
  if (answer.kind === 'willDo') return <>You will do this; the next version is asked about it.</>;
  if (answer.kind === 'meantSo') return <>Meant so{answer.reason ? `, because ${answer.reason}` : ''}.</>;
  return <>Wrong here{answer.outline ? ', at the places shown' : ''}: left out.</>;
}
