import { cssHex, type Swatch } from '@halflight/engine';
import { useOwnHex } from '../state/light.ts';
import { say } from '../state/session.ts';

/**
 * Flat, hard-edged colours in a row, large enough to be picked from the screen, each with what it stands for and its
 * code values in the picture's own space.
 */
export function Swatches({ swatches }: { swatches: readonly Swatch[] }) {
  const hexOf = useOwnHex();
  return (
    <ul className="swatches" aria-label={hexOf.space ? `Colours, in ${hexOf.space}` : 'Colours'}>
      {swatches.map(({ label, rgb }) => {
        const hex = hexOf(rgb);
        return (
          <li key={label}>
            <Patch rgb={rgb} />
            <span>{label}</span>
            {hex && <CopyHex hex={hex} of={label} />}
          </li>
        );
      })}
    </ul>
  );
}

/** Code values to copy. */
function CopyHex({ hex, of }: { hex: string; of: string }) {
  const copy = (): void => {
    void navigator.clipboard?.writeText(hex).then(() => say(`${hex} is on the clipboard.`));
  };
  return (
    <button type="button" className="clause caption" onClick={copy}>
      <span className="unseen">Copy {of}: </span>
      {hex}
    </button>
  );
}

/** A square of one colour, linear sRGB; wide colours as far as the screen shows them. */
export function Patch({ rgb }: { rgb: readonly [number, number, number] }) {
  const wide = `color(srgb-linear ${rgb.map((v) => v.toFixed(5)).join(' ')})`;
  return (
    <svg className="patch" viewBox="0 0 1 1" aria-hidden="true" shapeRendering="crispEdges">
      <rect width="1" height="1" fill={cssHex(rgb)} style={{ fill: wide }} />
    </svg>
  );
}
