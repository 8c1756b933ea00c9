import { type RefObject, useEffect, useRef, useState } from 'react';
import type { Version, Work } from '../../document/work.ts';
import { changeWords } from '../../parts/change.ts';
import { choosePair, smallAddress } from '../../state/progress.ts';
import { stripOf } from '../../state/strip.ts';

/** Long side of a version on the wall, in CSS pixels: as large as all of them fit, within these. */
const LARGEST = 200;
const SMALLEST = 104;

/** The versions as small pictures: to the right by work done, upwards by what it changed from a distance. */
export function StripOnWall({ work, pair }: { work: Work; pair: readonly [number, number] }) {
  const place = useRef<HTMLDivElement>(null);
  const layout = stripOf(work, useSide(place, work));
  const { width, height, pictures, curve } = layout;
  const points = Array.from({ length: curve.length / 2 }, (_, i) => `${curve[2 * i]},${curve[2 * i + 1]}`);
  return (
    <div ref={place} className="strip-place">
      <div className="strip" style={{ width, height }}>
        <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
          <polyline points={points.join(' ')} />
        </svg>
        <ol aria-label="Versions, to the right by work done, upwards by what changed from a distance">
          {pictures.map(({ x, y, width: w, height: h, at }, index) => {
            const version = work.versions[index];
            const before = work.versions[index - 1];
            return (
              <li key={version.number} style={{ left: x, top: y, width: w }}>
                <button
                  type="button"
                  aria-pressed={pair.includes(version.number)}
                  aria-label={`Version ${version.number}: ${aboutVersion(version)}`}
                  disabled={before === undefined}
                  onClick={() => before && choosePair(before.number, version.number)}
                  style={{ height: h }}
                >
                  <Small hash={version.small} />
                </button>
                <span className="strip-number" style={{ top: at[1] - y, left: at[0] - x }}>
                  {version.number}
                </span>
              </li>
            );
          })}
        </ol>
      </div>
    </div>
  );
}

/** The size at which the strip fits its place; a strip that is too long shows its end. */
function useSide(place: RefObject<HTMLDivElement | null>, work: Work): number {
  const [side, setSide] = useState(LARGEST);
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const fit = (): void => {
      const [large, small] = [stripOf(work, LARGEST).width, stripOf(work, SMALLEST).width];
      const each = (large - small) / (LARGEST - SMALLEST);
      const fitting = SMALLEST + (element.clientWidth - small) / each;
      setSide(Math.floor(Math.min(LARGEST, Math.max(SMALLEST, fitting))));
      requestAnimationFrame(() => element.scrollTo({ left: element.scrollWidth }));
    };
    const observer = new ResizeObserver(fit);
    observer.observe(element);
    return () => observer.disconnect();
  }, [place, work]);
  return side;
}

function aboutVersion({ change }: Version): string {
  return change ? changeWords(change) : 'nothing to compare it with.';
}

/** A small picture from the store; the wall shows through where there is none. */
export function Small({ hash }: { hash: string | undefined }) {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    if (hash) void smallAddress(hash).then((it) => wanted && setAddress(it));
    return () => {
      wanted = false;
    };
  }, [hash]);
  return address && <img src={address} alt="" />;
}
