import type { Drawing as DrawingData, Paint, ReadingId, Shape } from '@halflight/engine';
import { type ReactNode, useEffect, useState } from 'react';
import type { SeenMap } from '../picture/desk.ts';
import { pictures } from '../state/desks.ts';

/** A reading's small drawing. Every reading comes through here: no screen knows what it shows. */
export function Drawing({ drawing, reading }: { drawing: DrawingData; reading: ReadingId }) {
  const { width, height, shapes, sentence } = drawing;
  return (
    <svg
      className="drawing"
      viewBox={`0 0 ${width} ${height}`}
      style={{ width: `${width / 16}rem` }}
      role="img"
      aria-label={sentence}
    >
      {shapes.map((shape, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no names; the list is replaced as a whole
        <ShapeOf key={index} shape={shape} reading={reading} />
      ))}
    </svg>
  );
}

function ShapeOf({ shape, reading }: { shape: Shape; reading: ReadingId }): ReactNode {
  switch (shape.kind) {
    case 'path': {
      const { d, fill, stroke, strokeWidth } = shape;
      return <path d={d} fill={paint(fill)} stroke={paint(stroke)} strokeWidth={strokeWidth ?? 1} />;
    }
    case 'rect': {
      const { x, y, width, height, fill, stroke } = shape;
      return <rect x={x} y={y} width={width} height={height} fill={paint(fill)} stroke={paint(stroke)} />;
    }
    case 'circle': {
      const { cx, cy, r, fill, stroke } = shape;
      return <circle cx={cx} cy={cy} r={r} fill={paint(fill)} stroke={paint(stroke)} />;
    }
    case 'line': {
      const { x1, y1, x2, y2, stroke, strokeWidth, dashed } = shape;
      return (
        <line
          x1={x1}
          y1={y1}
          x2={x2}
          y2={y2}
          stroke={paint(stroke)}
          strokeWidth={strokeWidth ?? 1}
          strokeDasharray={dashed ? '3 3' : undefined}
        />
      );
    }
    case 'text': {
      const { x, y, text, anchor, fill } = shape;
      return (
        <text x={x} y={y} textAnchor={anchor} fill={paint(fill)}>
          {text}
        </text>
      );
    }
    case 'map':
      return <MapShape shape={shape} reading={reading} />;
  }
}

/** A map inside a drawing, fetched by name and painted with its palette. */
function MapShape({ shape, reading }: { shape: Extract<Shape, { kind: 'map' }>; reading: ReadingId }) {
  const { x, y, width, height, map: name, palette } = shape;
  const [source, setSource] = useState<string | null>(null);
  const colours = palette?.join(' ');
  useEffect(() => {
    let wanted = true;
    pictures.desk
      .map(reading, name)
      .then((map) => wanted && map && setSource(mapImage(map, colours?.split(' '))))
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [reading, name, colours]);
  return (
    source && <image href={source} x={x} y={y} width={width} height={height} preserveAspectRatio="none" />
  );
}

/** The map as a picture: one colour per step, or a ramp of greys. */
function mapImage(map: SeenMap, palette: readonly string[] | undefined): string {
  const canvas = document.createElement('canvas');
  canvas.width = map.width;
  canvas.height = map.height;
  const context = canvas.getContext('2d');
  if (context === null) return '';
  const image = context.createImageData(map.width, map.height);
  const colours = palette?.map(bytesOf);
  for (let i = 0; i < map.data.length; i++) {
    const value = map.data[i];
    const step = colours?.[Math.round((value / 255) * (colours.length - 1))];
    image.data.set(step ?? [value, value, value, 255], 4 * i);
  }
  context.putImageData(image, 0, 0);
  return canvas.toDataURL();
}

/** "#rrggbb" as four bytes. */
function bytesOf(hex: string): number[] {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)).concat(255);
}

/** Tones are the page's own greys; colours are information and stay as they are. */
function paint(value: Paint | undefined): string {
  if (value === undefined || value === 'none') return 'none';
  if (typeof value === 'object') return value.css;
  return `var(--${value})`;
}
