import type { Baseline } from '@halflight/engine';
import { sentence, unitAfter } from '@halflight/engine';
import { number } from '../../parts/ReadingDetails.tsx';
import type { ClassMeasure } from '../../workers/class/desk.ts';

/** Where four in five of the finished works lie, by reading. */
export function Ranges({ baseline, measures }: { baseline: Baseline; measures: readonly ClassMeasure[] }) {
  const known = measures.filter(({ name }) => baseline.measures[name]);
  const titles = [...new Set(known.map(({ title }) => title))];
  return (
    <table>
      <caption className="unseen">Usual ranges of {baseline.works} finished works</caption>
      <thead>
        <tr className="quiet">
          <th scope="col">Of {baseline.works} finished works</th>
          <th scope="col">four in five lie between</th>
          <th scope="col">in the middle</th>
        </tr>
      </thead>
      {titles.map((title) => (
        <tbody key={title}>
          <tr>
            <th scope="rowgroup" colSpan={3}>
              {title}
            </th>
          </tr>
          {known
            .filter((measure) => measure.title === title)
            .map(({ name, label, unit, digits }) => {
              const { p10, p50, p90 } = baseline.measures[name];
              return (
                <tr key={name}>
                  <th scope="row">{sentence(label)}</th>
                  <td>
                    {number(p10, digits)} and {number(p90, digits)}
                    {unitAfter(unit)}
                  </td>
                  <td>{number(p50, digits)}</td>
                </tr>
              );
            })}
        </tbody>
      ))}
    </table>
  );
}
