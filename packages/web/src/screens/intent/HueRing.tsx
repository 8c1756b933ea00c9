import { cssHex, type HueArc, oklabToLinear, oklchToOklab } from '@halflight/engine';
import { type PointerEvent, useRef, useState } from 'react';
import { arcPath, hueAt, onRing, RING, radiusAt, turn, wedgePath } from './ring.ts';

/** A part of the plan: a family by its place in the list, or the accent. */
export type PlanPart = number | 'accent';

export interface Plan {
  readonly families: readonly HueArc[];
  readonly accent?: HueArc;
}

const FAMILY_RADIUS = RING.radius - 12;
const ACCENT_RADIUS = RING.radius - 26;
/** A new family is this wide. */
const NEW_WIDTH = 50;

/**
 * The hue plan on a ring: outside it what the picture has, inside it what is planned. Arcs are drawn by hand:
 * the middle moves them, the ends widen them, a press on the free ring begins one. Everything can also be
 * done in the sentences below it, so that the ring is hidden from those who can't see it.
 */
export function HueRing({
  plan,
  distribution,
  onPlan,
}: {
  plan: Plan;
  distribution: readonly number[];
  onPlan: (plan: Plan, done: boolean) => void;
}) {
  const ref = useRef<SVGSVGElement>(null);
  const [grip, setGrip] = useState<{ part: PlanPart; end: -1 | 0 | 1; start: HueArc; hue: number } | null>(
    null,
  );

  const point = (event: PointerEvent): { x: number; y: number } => {
    const box = ref.current?.getBoundingClientRect();
    const scale = box ? RING.size / box.width : 1;
    return { x: (event.clientX - (box?.left ?? 0)) * scale, y: (event.clientY - (box?.top ?? 0)) * scale };
  };
  const take = (event: PointerEvent, part: PlanPart, end: -1 | 0 | 1): void => {
    const start = part === 'accent' ? plan.accent : plan.families[part];
    if (!start) return;
    ref.current?.setPointerCapture(event.pointerId);
    const { x, y } = point(event);
    setGrip({ part, end, start, hue: hueAt(x, y) });
    event.stopPropagation();
  };
  const onPointerDown = (event: PointerEvent): void => {
    const { x, y } = point(event);
    const radius = radiusAt(x, y);
    if (radius < ACCENT_RADIUS - 8 || radius > RING.radius + RING.longest) return;
    onPlan(
      { ...plan, families: [...plan.families, { hue: Math.round(hueAt(x, y)), width: NEW_WIDTH }] },
      true,
    );
  };
  const onPointerMove = (event: PointerEvent): void => {
    if (grip === null) return;
    const { x, y } = point(event);
    onPlan(withPart(plan, grip.part, moved(grip.start, grip.end, turn(grip.hue, hueAt(x, y)))), false);
  };
  const onPointerUp = (): void => {
    if (grip) onPlan(plan, true);
    setGrip(null);
  };

  const most = Math.max(...distribution, 1e-9);
  const step = 360 / distribution.length;
  return (
    <svg
      ref={ref}
      className="hue-ring"
      viewBox={`0 0 ${RING.size} ${RING.size}`}
      aria-hidden="true"
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={onPointerUp}
    >
      <circle className="ring-line" cx={RING.size / 2} cy={RING.size / 2} r={RING.radius} />
      {distribution.map((weight, index) => {
        if (weight / most < 0.005) return null;
        const from = index * step;
        const outer = RING.radius + 2 + (RING.longest * weight) / most;
        return (
          <path
            key={from}
            className="hue-share"
            d={wedgePath(from + 0.6, from + step - 0.6, RING.radius + 2, outer)}
            fill={hueColour(from + step / 2)}
          />
        );
      })}
      {plan.families.map((arc, index) => (
        <PlanArc
          // biome-ignore lint/suspicious/noArrayIndexKey: families have no names, their place in the list is their name
          key={index}
          arc={arc}
          radius={FAMILY_RADIUS}
          onTake={(event, end) => take(event, index, end)}
        />
      ))}
      {plan.accent && (
        <PlanArc
          arc={plan.accent}
          radius={ACCENT_RADIUS}
          onTake={(event, end) => take(event, 'accent', end)}
        />
      )}
    </svg>
  );
}

function PlanArc({
  arc,
  radius,
  onTake,
}: {
  arc: HueArc;
  radius: number;
  onTake: (event: PointerEvent, end: -1 | 0 | 1) => void;
}) {
  const path = arcPath(arc.hue, arc.width, radius);
  return (
    <g className="plan-arc">
      <path className="plan-rim" d={path} />
      <path className="plan-line" d={path} stroke={hueColour(arc.hue)} />
      <path className="plan-grip" d={path} onPointerDown={(event) => onTake(event, 0)} />
      {([-1, 1] as const).map((end) => {
        const { x, y } = onRing(arc.hue + (end * arc.width) / 2, radius);
        return (
          <circle
            key={end}
            className="plan-end"
            cx={x}
            cy={y}
            r={6}
            onPointerDown={(event) => onTake(event, end)}
          />
        );
      })}
    </g>
  );
}

function withPart(plan: Plan, part: PlanPart, arc: HueArc): Plan {
  if (part === 'accent') return { ...plan, accent: arc };
  return { ...plan, families: plan.families.map((family, index) => (index === part ? arc : family)) };
}

/** The arc after its middle (0) or one of its ends was turned. */
function moved({ hue, width }: HueArc, end: -1 | 0 | 1, by: number): HueArc {
  if (end === 0) return { hue: (Math.round(hue + by) + 360) % 360, width };
  const next = Math.min(350, Math.max(10, width + end * by));
  const shift = (end * (next - width)) / 2;
  return { hue: (Math.round(hue + shift) + 360) % 360, width: Math.round(next) };
}

/** A hue at the middle lightness, as much of it as sRGB shows there. */
export function hueColour(hue: number): string {
  return cssHex(oklabToLinear(oklchToOklab([0.66, 0.11, hue])));
}
