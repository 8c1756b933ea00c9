import { Value } from './Value.tsx';

/** Hue and width of an arc of hues as values in running text, both in degrees: "250°, 60°". */
export function ArcValues({
  hue,
  width,
  labels: [hueLabel, widthLabel],
  onChange,
}: {
  hue: number;
  width: number;
  labels: readonly [string, string];
  onChange: (change: { hue: number } | { width: number }, done: boolean) => void;
}) {
  return (
    <>
      <Value
        label={hueLabel}
        value={hue}
        min={0}
        max={360}
        step={1}
        digits={0}
        unit="°"
        round
        onChange={(value, done) => onChange({ hue: value }, done)}
      />
      ,{' '}
      <Value
        label={widthLabel}
        value={width}
        min={10}
        max={350}
        step={2}
        digits={0}
        unit="°"
        onChange={(value, done) => onChange({ width: value }, done)}
      />
    </>
  );
}
