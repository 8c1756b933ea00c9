import { sentence, unitAfter } from '@halflight/engine';
import type { Work } from '../../document/work.ts';
import { number } from '../../parts/ReadingDetails.tsx';
import type { Course, CourseMeasure } from '../../picture/time-desk.ts';

/** Readings over versions: for each reading a small line with a sentence, and all its numbers in a table. */
export function Courses({ work, courses }: { work: Work; courses: readonly Course[] }) {
  const told = courses.filter(({ measures }) => measures.some(isTold));
  if (told.length === 0) return null;
  const numbers = work.versions.map((version) => version.number);
  return (
    <ul className="courses">
      {told.map(({ reading, title, measures }) => {
        const lead = measures.find(isTold) as CourseMeasure;
        return (
          <li key={reading}>
            <Line measure={lead} numbers={numbers} />
            <p>{sentenceOf(lead, numbers)}</p>
            <details className="details">
              <summary>
                All of {title.toLowerCase()}
                <span className="unseen"> in numbers</span>
              </summary>
              <div className="course-table">
                <table>
                  <caption className="unseen">{title} over versions</caption>
                  <thead>
                    <tr>
                      <td />
                      {numbers.map((it) => (
                        <th key={it} scope="col">
                          {it}
                        </th>
                      ))}
                    </tr>
                  </thead>
                  <tbody>
                    {measures.filter(isTold).map(({ key, label, unit, digits, values }) => (
                      <tr key={key}>
                        <th scope="row">
                          {label}
                          {unit && `, ${unit}`}
                        </th>
                        {values.map((value, index) => (
                          <td key={numbers[index]}>{value === null ? '–' : number(value, digits)}</td>
                        ))}
                      </tr>
                    ))}
                  </tbody>
                </table>
              </div>
            </details>
          </li>
        );
      })}
    </ul>
  );
}

const isTold = ({ values }: CourseMeasure): boolean => values.some((value) => value !== null);

/** "Hues that count went from 5.1 to 3.2." */
export function sentenceOf(
  { label, unit, digits, values }: CourseMeasure,
  numbers: readonly number[],
): string {
  const told = values.flatMap((value, index) => (value === null ? [] : [{ value, at: numbers[index] }]));
  const first = told[0];
  const last = told[told.length - 1];
  const text = (value: number): string => `${number(value, digits)}${unitAfter(unit)}`;
  if (told.length < 2) return `${sentence(label)}: ${text(last.value)} in version ${last.at}.`;
  if (text(first.value) === text(last.value))
    return `${sentence(label)}: ${text(last.value)} in version ${first.at} as in version ${last.at}.`;
  return `${sentence(label)}: from ${text(first.value)} in version ${first.at} to ${text(last.value)} in version ${last.at}.`;
}

const WIDTH = 160;
const HEIGHT = 28;
const RIM = 4;

/** The line itself; a version without a value leaves a gap. */
function Line({ measure, numbers }: { measure: CourseMeasure; numbers: readonly number[] }) {
  const { values } = measure;
  const told = values.filter((value) => value !== null);
  const low = Math.min(...told);
  const span = Math.max(...told) - low || 1;
  const x = (index: number): number => RIM + (index / Math.max(1, values.length - 1)) * (WIDTH - 2 * RIM);
  const y = (value: number): number => HEIGHT - RIM - ((value - low) / span) * (HEIGHT - 2 * RIM);
  let path = '';
  values.forEach((value, index) => {
    if (value !== null)
      path += `${path === '' || values[index - 1] === null ? 'M' : 'L'}${x(index).toFixed(1)} ${y(value).toFixed(1)}`;
  });
  const end = values.findLastIndex((value) => value !== null);
  return (
    <svg
      className="course"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={sentenceOf(measure, numbers)}
    >
      <path d={path} />
      <circle cx={x(end)} cy={y(values[end] as number)} r="2.5" />
    </svg>
  );
}
