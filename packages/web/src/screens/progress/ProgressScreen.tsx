import { countWord, percent, sentence } from '@halflight/engine';
import './progress.css';
import { useEffect } from 'react';
import type { Version, Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { Headline } from '../../parts/Headline.tsx';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { WayAround } from '../../parts/WayAround.tsx';
import { when } from '../../parts/when.ts';
import type { OpenedPicture } from '../../picture/desk.ts';
import type { SeenComparison } from '../../picture/time-desk.ts';
import {
  choosePair,
  compareVersions,
  followReadings,
  leaveProgress,
  stopComparing,
  useProgress,
} from '../../state/progress.ts';
import { useSession } from '../../state/session.ts';
import { curveOf, saveStrip } from '../../state/strip.ts';
import { Courses } from './Courses.tsx';
import { DonePart } from './DonePart.tsx';
import { Maps } from './Maps.tsx';
import { Small, StripOnWall } from './StripOnWall.tsx';

/** Versions on the curve of effort and impact, what changed between any two, and whether work still changes anything. */
export default function ProgressScreen({ work: shown, picture }: { work: Work; picture: OpenedPicture }) {
  const { pair: chosen, comparison, running, courses } = useProgress();
  const { seen, glance, history } = useSession();
  // A paste on the wall is no version yet: it stands among the glances.
  const work = glance && history ? history.present : shown;
  const { versions } = work;
  const [earlier, later] = pairOf(versions, chosen);
  const { diminishing } = curveOf(work);

  // biome-ignore lint/correctness/useExhaustiveDependencies: compared again for other versions, not for another wording
  useEffect(() => {
    if (earlier && later) void compareVersions(earlier, later);
  }, [earlier?.hash, later?.hash, picture]);
  useEffect(() => {
    let wanted = true;
    void followReadings(work, () => wanted).catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [work]);
  useEffect(() => leaveProgress, []);

  return (
    <Frame
      wall={
        <>
          <Headline work={work} />
          <div className="progress-wall">
            <StripOnWall work={work} pair={[earlier?.number ?? 0, later?.number ?? 0]} />
            {comparison && comparison !== 'apart' && <Maps comparison={comparison} />}
            {running && (
              <div className="progress-waiting">
                <Waiting
                  key={`${earlier?.hash} ${later?.hash}`}
                  what={`Comparing versions ${earlier?.number} and ${later?.number}`}
                  progress={running}
                  onStop={stopComparing}
                />
              </div>
            )}
          </div>
        </>
      }
      margin={
        <>
          <NotesPart title="Progress">
            <div className="progress-part">
              {versions.length < 2 || !earlier || !later ? (
                <p>
                  There is one version so far. When the next one comes, what changed for someone who stands
                  back and what only for someone close by will stand here.
                </p>
              ) : (
                <>
                  {diminishing && (
                    <p className="lead">
                      {diminishing.sentence} Stand back before the next one: it may be done.
                    </p>
                  )}
                  <Between versions={versions} earlier={earlier} later={later} />
                  {comparison === 'apart' && (
                    <p>Nothing of one is seen in the other: they can’t be compared.</p>
                  )}
                  {comparison && comparison !== 'apart' && <ComparisonWords comparison={comparison} />}
                  <p>
                    Save the strip as{' '}
                    <button type="button" className="clause" onClick={() => void saveStrip(work, 'png')}>
                      a picture
                    </button>
                    ,{' '}
                    <button type="button" className="clause" onClick={() => void saveStrip(work, 'svg')}>
                      a drawing (SVG)
                    </button>{' '}
                    or{' '}
                    <button type="button" className="clause" onClick={() => void saveStrip(work, 'webp')}>
                      an animation (WebP)
                    </button>
                    .
                  </p>
                </>
              )}
              {work.glances.length > 0 && <Glances work={work} />}
              {work.glances.length > 0 && (
                <p className="quiet">
                  {work.glances.length === 1
                    ? 'One paste was only read and is no version.'
                    : `${sentence(countWord(work.glances.length))} pastes were only read and are no versions.`}
                </p>
              )}
              {versions.length > 1 && <Courses work={work} courses={courses} />}
            </div>
          </NotesPart>
          <section className="rest-part" aria-label="Is it done, and the way around">
            {!glance && (
              <>
                <h3 className="part-title">Is it done?</h3>
                <DonePart work={work} seen={seen} />
              </>
            )}
            <WayAround />
          </section>
        </>
      }
    />
  );
}

/** Pastes that were only read, as small pictures in the order they came. */
function Glances({ work: { glances } }: { work: Work }) {
  return (
    <ul className="glances" aria-label="Pastes that were only read">
      {glances.map(({ id, small, added }) => (
        <li key={id}>
          <Small hash={small} />
          <span className="caption">{when(added)}</span>
        </li>
      ))}
    </ul>
  );
}

/** The two versions that are compared: those chosen while they are there, else the last two. */
function pairOf(versions: readonly Version[], chosen: readonly [number, number] | null) {
  const named = (number: number | undefined) => versions.find((version) => version.number === number);
  const [earlier, later] = [named(chosen?.[0]), named(chosen?.[1])];
  return earlier && later ? [earlier, later] : [versions.at(-2), versions.at(-1)];
}

/** "Between version 3 and version 4": both can be chosen. */
function Between({
  versions,
  earlier,
  later,
}: {
  versions: readonly Version[];
  earlier: Version;
  later: Version;
}) {
  const choose = (a: number, b: number): void => {
    if (a !== b) choosePair(Math.min(a, b), Math.max(a, b));
  };
  const options = (other: Version) =>
    versions
      .filter(({ number }) => number !== other.number)
      .map(({ number }) => (
        <option key={number} value={number}>
          version {number}
        </option>
      ));
  return (
    <p>
      Between{' '}
      <select
        className="clause"
        aria-label="Earlier version"
        value={earlier.number}
        onChange={(event) => choose(Number(event.target.value), later.number)}
      >
        {options(later)}
      </select>{' '}
      and{' '}
      <select
        className="clause"
        aria-label="Later version"
        value={later.number}
        onChange={(event) => choose(earlier.number, Number(event.target.value))}
      >
        {options(earlier)}
      </select>
      :
    </p>
  );
}

function ComparisonWords({ comparison }: { comparison: SeenComparison }) {
  const { impact, impactP95, changedShare, effort, effortWithoutImpact, overlap } = comparison;
  if (impact === 0 && effort === 0) return <p>Nothing changed.</p>;
  return (
    <>
      <p>
        {changedShare < 0.005
          ? 'For someone who stands back nothing changed.'
          : `For someone who stands back ${percent(changedShare)} of the picture changed.`}{' '}
        {effort > 0 && `Close by, ${percent(effort)} of the fine detail is new`}
        {effort > 0.01 && effortWithoutImpact > 0.005
          ? `; ${percent(effortWithoutImpact)} of that does not show from a distance.`
          : effort > 0 && '.'}
      </p>
      <p className="quiet">
        The whole view differs by {impact.toFixed(1)} on the average and by {impactP95.toFixed(1)} where it
        differs most (CIEDE2000; 1 is just seen).
        {overlap < 0.98 && ` Compared over the ${percent(overlap)} of the earlier picture that both show.`}{' '}
        Numbers are advice; your eye decides.
      </p>
    </>
  );
}
