import { type Origin, unitAfter } from '@halflight/engine';
import type { SeenReading } from '../picture/desk.ts';

/** What stands behind a note, on demand: where the threshold comes from, how sure it is, and every number. */
export function ReadingDetails({ reading, origin }: { reading: SeenReading; origin?: Origin }) {
  const { title, about, evidence, measures, sources } = reading;
  return (
    <details className="details">
      <summary>How sure, and the numbers</summary>
      <p>{about}</p>
      <dl>
        <dt>How sure</dt>
        <dd>
          {SURE[evidence.level]}: {lowerFirst(evidence.reason)}
        </dd>
        {origin && (
          <>
            <dt>Measured against</dt>
            <dd>{origin.text}</dd>
          </>
        )}
        {sources.length > 0 && (
          <>
            <dt>After</dt>
            <dd>{sources.join('; ')}</dd>
          </>
        )}
      </dl>
      <table>
        <caption className="unseen">{title} in numbers</caption>
        <tbody>
          {measures.map(({ key, label, unit, digits, value }) => (
            <tr key={key}>
              <th scope="row">{label}</th>
              <td>{value === null ? 'has no meaning here' : `${number(value, digits)}${unitAfter(unit)}`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

const SURE = { strong: 'Strongly', fair: 'Fairly', weak: 'Not enough to say' } as const;

/** A number with a real minus sign. */
export function number(value: number, digits: number): string {
  return value
    .toFixed(digits)
    .replace(/^-(?=.*[1-9])/, '−')
    .replace(/^-/, '');
}

function lowerFirst(text: string): string {
  return /^[A-Z][a-z ]/.test(text) ? text[0].toLowerCase() + text.slice(1) : text;
}
