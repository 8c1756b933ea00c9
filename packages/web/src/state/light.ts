import { type ColourSpace, hexIn, type Swatch } from '@halflight/engine';
import { useEffect, useState } from 'react';
import { create } from 'zustand';
import type { OpenedPicture, PlaceReading } from '../picture/desk.ts';
import type { LightExplained } from '../picture/light-desk.ts';
import { pictures } from './desks.ts';
import { get, useSession } from './session.ts';

/** Why the place that was tapped is flagged or not. */
interface LightState {
  readonly of: PlaceReading | null;
  readonly explained: LightExplained | null;
}

export const useLight = create<LightState>(() => ({ of: null, explained: null }));

/** Asks what the light reading saw at a place. */
export async function explainLight(place: PlaceReading): Promise<void> {
  const work = get().history?.present;
  if (!work || useLight.getState().of === place) return;
  useLight.setState({ of: place, explained: null });
  const explained = await pictures.desk
    .explain(place.x, place.y, work.intent, work.answers)
    .catch(() => null);
  if (useLight.getState().of === place) useLight.setState({ explained });
}

let known: { picture: OpenedPicture; space: ColourSpace } | null = null;

/** The colour space of the open picture; null until the worker has told it. */
function useOwnSpace(): ColourSpace | null {
  const picture = useSession((session) => session.picture);
  const [space, setSpace] = useState(known?.picture === picture ? (known?.space ?? null) : null);
  useEffect(() => {
    if (picture === null || known?.picture === picture) return;
    let wanted = true;
    pictures.desk
      .space()
      .then((own) => {
        known = { picture, space: own };
        if (wanted) setSpace(own);
      })
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [picture]);
  return space;
}

/** Code values of a colour in the picture's own space, as hexadecimal; null until the space is known. */
export function useOwnHex(): ((rgb: Swatch['rgb']) => string | null) & { readonly space: string | null } {
  const space = useOwnSpace();
  const hex = (rgb: Swatch['rgb']): string | null => space && hexIn(rgb, space);
  return Object.assign(hex, { space: space?.name ?? null });
}
