import { countWord, type HueArc, type HueIntent, hueName, listOf, sentence } from '@halflight/engine';
import { useState } from 'react';
import { ArcValues } from '../../parts/ArcValues.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { Value } from '../../parts/Value.tsx';
import type { Seen } from '../../picture/desk.ts';
import { decide } from '../../state/decide.ts';
import { HueRing, hueColour, type Plan } from './HueRing.tsx';

const EMPTY: HueIntent = { families: [] };

/** Which hue families to keep, and where an accent may sit: drawn on a ring, or written. */
export function HuePart({ hue, seen }: { hue: HueIntent | undefined; seen: Seen | null }) {
  const [draft, setDraft] = useState<HueIntent | null>(null);
  const shown = draft ?? hue ?? EMPTY;
  const { distribution, families } = spreadOf(seen);
  const change = (next: HueIntent, done: boolean): void => {
    setDraft(done ? null : next);
    if (done) decide('hue', isOpen(next) ? undefined : next);
  };
  const onPlan = (plan: Plan, done: boolean): void => change({ ...shown, ...plan }, done);
  const { accent, limit } = shown;

  return (
    <NoteFrame name="intent hue" sentence={sentenceOf(hue)}>
      <HueRing plan={shown} distribution={distribution} onPlan={onPlan} />
      <ul className="plan">
        {shown.families.map((arc, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: families have no names, their place in the list is their name
          <li key={index}>
            <ArcWords
              name={`family ${index + 1}`}
              arc={arc}
              onChange={(next, done) =>
                change(
                  { ...shown, families: shown.families.map((old, at) => (at === index ? next : old)) },
                  done,
                )
              }
              onRemove={() =>
                change({ ...shown, families: shown.families.filter((_, at) => at !== index) }, true)
              }
            />
          </li>
        ))}
        {accent && (
          <li>
            <ArcWords
              name="accent"
              arc={accent}
              lead="Accent: "
              onChange={(next, done) => change({ ...shown, accent: next }, done)}
              onRemove={() => change(withoutAccent(shown), true)}
            />
          </li>
        )}
      </ul>
      <p>
        <button
          type="button"
          className="clause"
          onClick={() => change({ ...shown, families: [...shown.families, freshArc(shown.families)] }, true)}
        >
          Add a family
        </button>
        {families.length > 0 && (
          <>
            , or{' '}
            <button type="button" className="clause" onClick={() => change({ ...shown, families }, true)}>
              take those the picture has
            </button>
          </>
        )}
        {!accent && (
          <>
            ;{' '}
            <button
              type="button"
              className="clause"
              onClick={() => change({ ...shown, accent: freshArc(shown.families, 30) }, true)}
            >
              allow an accent
            </button>
          </>
        )}
        .
      </p>
      <p>
        {limit === undefined ? (
          <button type="button" className="clause" onClick={() => change({ ...shown, limit: 2.5 }, true)}>
            Name a limit for the spread
          </button>
        ) : (
          <>
            The spread may be{' '}
            <Value
              label="Largest spread in hues"
              value={limit}
              min={1}
              max={10}
              step={0.1}
              digits={1}
              onChange={(value, done) => change({ ...shown, limit: value }, done)}
            />{' '}
            hues at most;{' '}
            <button type="button" className="clause" onClick={() => change(withoutLimit(shown), true)}>
              no limit
            </button>
          </>
        )}
        .
      </p>
      {hue && (
        <p>
          <button type="button" className="clause" onClick={() => change(EMPTY, true)}>
            Leave the hue plan open
          </button>
        </p>
      )}
    </NoteFrame>
  );
}

function ArcWords({
  name,
  arc,
  lead = '',
  onChange,
  onRemove,
}: {
  name: string;
  arc: HueArc;
  lead?: string;
  onChange: (arc: HueArc, done: boolean) => void;
  onRemove: () => void;
}) {
  return (
    <>
      <svg className="patch small" viewBox="0 0 1 1" aria-hidden="true">
        <rect width="1" height="1" fill={hueColour(arc.hue)} />
      </svg>
      <span>
        {lead}
        {hueName(arc.hue)} around{' '}
        <ArcValues
          hue={arc.hue}
          width={arc.width}
          labels={[`Hue of ${name}`, `Width of ${name}`]}
          onChange={(change, done) => onChange({ ...arc, ...change }, done)}
        />{' '}
        wide;{' '}
        <button
          type="button"
          className="clause"
          aria-label={`Leave out ${name}, ${hueName(arc.hue)}`}
          onClick={onRemove}
        >
          leave out
        </button>
      </span>
    </>
  );
}

function sentenceOf(hue: HueIntent | undefined): string {
  if (!hue) return 'The hue plan is left open.';
  const { families, accent, limit } = hue;
  const names = families.map((arc) => hueName(arc.hue));
  const planned =
    families.length === 0
      ? ''
      : `${sentence(countWord(families.length))} hue ${families.length === 1 ? 'family is' : 'families are'} planned: ${listOf(names)}`;
  const parts = [
    planned,
    accent && `${planned ? 'an' : 'An'} accent of ${hueName(accent.hue)}`,
    limit !== undefined && `${planned || accent ? 'a' : 'A'} spread of ${limit} at most`,
  ].filter(Boolean);
  return `${parts.join(', ')}.`;
}

const isOpen = ({ families, accent, limit }: HueIntent): boolean =>
  families.length === 0 && accent === undefined && limit === undefined;

function withoutAccent({ accent: _accent, ...rest }: HueIntent): HueIntent {
  return rest;
}

function withoutLimit({ limit: _limit, ...rest }: HueIntent): HueIntent {
  return rest;
}

/** A new arc opposite to the last one, so that it does not lie upon it. */
function freshArc(families: readonly HueArc[], width = 50): HueArc {
  const last = families.at(-1);
  return { hue: last ? (last.hue + 180) % 360 : 270, width };
}

/** What the hue reading says of the picture, as far as the plan needs it. */
function spreadOf(seen: Seen | null): { distribution: readonly number[]; families: HueArc[] } {
  const value = seen?.readings.find(({ id }) => id === 'hueSpread')?.value as
    | { distribution?: readonly number[]; families?: readonly { hue: number; weightShare: number }[] }
    | undefined;
  const families = (value?.families ?? [])
    .filter(({ weightShare }) => weightShare >= 0.1)
    .map(({ hue }) => ({ hue: Math.round(hue) % 360, width: 50 }));
  return { distribution: value?.distribution ?? new Array(36).fill(0), families };
}
