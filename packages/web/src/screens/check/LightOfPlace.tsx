import { type Explanation, hueName, linearToOklab, type Swatch } from '@halflight/engine';
import { useEffect } from 'react';
import { Drawing } from '../../parts/Drawing.tsx';
import { Patch, Swatches } from '../../parts/Swatches.tsx';
import type { PlaceReading } from '../../picture/desk.ts';
import { explainLight, useLight } from '../../state/light.ts';

/** Chroma (OKLCh) below which a colour has no name of a hue. */
const GREY = 0.02;

type Says = Explanation['pairs'][number]['says'];

/** Pairs that are told; the others say nothing more. */
const TOLD = 4;

const BRIGHTER: Record<Says, string> = {
  shade: 'is the same surface in light: from there to here the colour turns as this light does',
  neutral: 'is the same surface in light: from there to here it only gets darker',
  opposite: 'is the same surface in light: from there to here the colour turns the other way',
  nothing: 'is brighter, but looks like another surface',
};
const DARKER: Record<Says, string> = {
  shade: 'is the same surface in shade, coloured as this light does it',
  neutral: 'is the same surface in shade, only darker',
  opposite: 'is the same surface in shade, turned the other way',
  nothing: 'is darker, but looks like another surface',
};

/** What the light reading saw at the place that was tapped: why it is flagged or not. */
export function LightOfPlace({ place }: { place: PlaceReading }) {
  const { of, explained } = useLight();
  useEffect(() => void explainLight(place), [place]);
  if (of !== place || explained === null) return null;
  const { sentence, pairs, place: flagged, drawing } = explained;
  const told = pairs.slice(0, TOLD);
  const colours: Swatch[] = flagged
    ? [
        { label: 'lit', rgb: flagged.lit },
        { label: 'now', rgb: flagged.now },
        { label: 'in this light', rgb: flagged.should },
      ]
    : [];
  return (
    <div className="light-of-place">
      <p>{sentence}</p>
      {flagged && <Swatches swatches={colours} />}
      {drawing && <Drawing drawing={drawing} reading="light" />}
      {drawing && flagged && <CurveTable colours={colours} />}
      {told.length > 0 && (
        <ul className="pairs" aria-label="Places it was compared with">
          {told.map((pair) => (
            <li key={`${pair.x} ${pair.y}`}>
              <Patch rgb={pair.rgb} />
              <span className="caption quiet">
                {whereWords(pair, place)} {(pair.brighter ? BRIGHTER : DARKER)[pair.says]}.
              </span>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** What the curve draws, for those who can't see it: lightness and chroma (OKLCh) of its ends. */
function CurveTable({ colours }: { colours: readonly Swatch[] }) {
  return (
    <div className="unseen">
      <table>
        <caption>The curve in numbers</caption>
        <tbody>
          {colours.map(({ label, rgb }) => {
            const [light, a, b] = linearToOklab(rgb);
            const chroma = Math.hypot(a, b);
            return (
              <tr key={label}>
                <th scope="row">{label}</th>
                <td>
                  lightness {Math.round(100 * light)}, chroma {chroma.toFixed(2)}
                  {chroma > GREY && `, ${hueName((Math.atan2(b, a) * 180) / Math.PI)}`}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

/** "The place to the upper left". */
function whereWords(pair: { x: number; y: number }, { x, y }: PlaceReading): string {
  const [dx, dy] = [pair.x - x, pair.y - y];
  const across = Math.abs(dx) < Math.abs(dy) / 3 ? '' : dx < 0 ? 'left' : 'right';
  const down = Math.abs(dy) < Math.abs(dx) / 3 ? '' : dy < 0 ? 'above' : 'below';
  if (across === '') return `The place ${down}`;
  if (down === '') return `The place to the ${across}`;
  return `The place ${down} to the ${across}`;
}
