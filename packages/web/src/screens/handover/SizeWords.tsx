import type { SizeSettings } from '@halflight/engine';
import { Chosen } from '../../parts/Chosen.tsx';
import { Value } from '../../parts/Value.tsx';
import { settle, useHandover } from '../../state/handover.ts';

const FITS: readonly (readonly [SizeSettings['fit'], string])[] = [
  ['own', 'as large as it was painted'],
  ['within', 'whole, within'],
  ['fill', 'cut to fill'],
  ['page', 'whole, on a page of'],
];

/** Most that a side may have, and a sensible step, in each unit. */
const REACH: Readonly<
  Record<SizeSettings['unit'], { most: number; step: number; digits: number; words: string }>
> = {
  px: { most: 20000, step: 10, digits: 0, words: 'pixels' },
  mm: { most: 2000, step: 1, digits: 0, words: 'mm' },
  inch: { most: 80, step: 0.5, digits: 1, words: 'inches' },
};
const FIRST: Readonly<Record<SizeSettings['unit'], number>> = { px: 2560, mm: 420, inch: 16 };

/** How large the file is, as a sentence. */
export function SizeWords() {
  const { size } = useHandover((state) => state.settings);
  const { fit, unit, pixelsPerInch } = size;
  const { most, step, digits, words } = REACH[unit];
  const change = (next: Partial<SizeSettings>): void => settle({ size: { ...size, ...next } });
  const refit = (next: SizeSettings['fit']): void =>
    change({ fit: next, width: size.width ?? FIRST[unit], height: size.height ?? FIRST[unit] });
  const side = (label: string, key: 'width' | 'height') => (
    <Value
      label={label}
      value={size[key] ?? FIRST[unit]}
      min={1}
      max={most}
      step={step}
      digits={digits}
      onChange={(value) => change({ [key]: value })}
    />
  );
  return (
    <p>
      The picture is{' '}
      <Chosen
        label="How the picture fits"
        value={fit}
        options={FITS}
        onChoose={(value) => refit(value as SizeSettings['fit'])}
      />
      {fit !== 'own' && (
        <>
          {' '}
          {side('Width', 'width')} × {side('Height', 'height')}{' '}
          <Chosen
            label="Unit of the size"
            value={unit}
            options={Object.entries(REACH).map(([name, { words }]): [string, string] => [name, words])}
            onChoose={(value) => {
              const next = value as SizeSettings['unit'];
              change({
                unit: next,
                width: FIRST[next],
                height: FIRST[next],
                margin: 0,
                pixelsPerInch: next === 'px' ? null : (pixelsPerInch ?? 300),
              });
            }}
          />
          {unit !== 'px' && (
            <>
              {' '}
              at{' '}
              <Value
                label="Pixels an inch"
                value={pixelsPerInch ?? 300}
                min={30}
                max={1200}
                step={10}
                digits={0}
                onChange={(value) => change({ pixelsPerInch: value })}
              />{' '}
              pixels an inch
            </>
          )}
          {fit === 'page' && (
            <>
              , with a border of{' '}
              <Value
                label="Border of the page"
                value={size.margin}
                min={0}
                max={most / 10}
                step={step}
                digits={digits}
                onChange={(value) => change({ margin: value })}
              />{' '}
              {words}
            </>
          )}
          , and{' '}
          <Chosen
            label="Whether it is enlarged"
            value={size.enlarge ? 'yes' : 'no'}
            options={[
              ['no', 'never enlarged'],
              ['yes', 'enlarged where it is smaller'],
            ]}
            onChoose={(value) => change({ enlarge: value === 'yes' })}
          />
        </>
      )}
      .
    </p>
  );
}
