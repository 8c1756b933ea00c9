import { cssHex, type Swatch } from '@halflight/engine';

/** Flat colours in a row, each with what it stands for. */
export function Swatches({ swatches }: { swatches: readonly Swatch[] }) {
  return (
    <ul className="swatches">
      {swatches.map(({ label, rgb }) => (
        <li key={label}>
          <Patch rgb={rgb} />
          {label}
        </li>
      ))}
    </ul>
  );
}

/** A square of one colour, linear sRGB. */
export function Patch({ rgb }: { rgb: readonly [number, number, number] }) {
  return (
    <svg className="patch" viewBox="0 0 1 1" aria-hidden="true">
      <rect width="1" height="1" fill={cssHex(rgb)} />
    </svg>
  );
}
