import './baseline.css';
import { countWord, sentence } from '@halflight/engine';
import { useEffect } from 'react';
import { go } from '../../app/route.ts';
import { Frame } from '../../parts/Frame.tsx';
import { useManyDropped } from '../../parts/many/useManyDropped.ts';
import { Troubles } from '../../parts/Troubles.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { changeBaseline, useBaseline } from '../../state/baseline.ts';
import {
  nameMeasures,
  readFinished,
  saveBaseline,
  stopFinished,
  useBaselineWorks,
} from '../../state/baseline-works.ts';
import { FinishedComings, SavedRanges } from './FinishedComings.tsx';
import { Ranges } from './Ranges.tsx';

/** The artist's own finished works, read once: where they lie on every reading, and whether notes stand beside that. */
export default function BaselineScreen() {
  const { baseline, used } = useBaseline();
  const { reading, unread, measures } = useBaselineWorks();
  useManyDropped(readFinished);
  useEffect(() => {
    void nameMeasures().catch(() => undefined);
    return stopFinished;
  }, []);
  return (
    <Frame
      wall={
        <div className="shelf baseline">
          <h1 data-heading tabIndex={-1}>
            What is usual for you
          </h1>
          {reading ? (
            <Waiting
              what={`Reading ${reading.name}, ${reading.done + 1} of ${reading.all}`}
              progress={reading.progress}
              onStop={stopFinished}
            />
          ) : baseline ? (
            <Ranges baseline={baseline} measures={measures} />
          ) : (
            <p className="lead">
              Five or more of your finished works say where your pictures usually lie. Only ranges are kept,
              no picture and no name.
            </p>
          )}
        </div>
      }
      margin={
        <div className="baseline-part">
          <h2 className="unseen">About your finished works</h2>
          <Troubles at={['opening', 'keeping', 'reading']} />
          {baseline && (
            <>
              <p className="lead">
                {used
                  ? `Notes stand beside ${countWord(baseline.works)} of your finished works.`
                  : `${sentence(countWord(baseline.works))} finished works are read, and left out.`}
              </p>
              <p>
                {used
                  ? 'What nine of ten of them keep to is no finding, and what lies well outside their range is called unusual for you.'
                  : 'Notes are as without them.'}
              </p>
              <p>
                <button type="button" className="answer" onClick={() => changeBaseline({ used: !used })}>
                  {used ? 'Leave them out' : 'Take them in again'}
                </button>
              </p>
              <p>
                <button type="button" className="clause" onClick={() => void saveBaseline()}>
                  Save the ranges
                </button>{' '}
                as a file, or{' '}
                <button type="button" className="clause" onClick={() => changeBaseline({ baseline: null })}>
                  forget them
                </button>
                .
              </p>
            </>
          )}
          {!reading && (
            <>
              <p>
                <FinishedComings lead={baseline ? 'Read them anew: open' : 'Open'} />.
              </p>
              <p>
                <SavedRanges />.
              </p>
            </>
          )}
          {unread.length > 0 && (
            <>
              <p>
                {unread.length === 1
                  ? 'One file could not be read:'
                  : `${unread.length} files could not be read:`}
              </p>
              <ul className="quiet">
                {unread.map((text) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
            </>
          )}
          <p className="quiet">
            What is usual is no rule: a picture that leaves the range may be the better one. Nothing is sent
            anywhere.
          </p>
          <p>
            <button type="button" className="clause" onClick={() => go({ screen: 'shelf' })}>
              Back to the shelf
            </button>
            .
          </p>
        </div>
      }
    />
  );
}
