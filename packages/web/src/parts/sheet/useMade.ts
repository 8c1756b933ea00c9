import { useEffect, useState } from 'react';
import { pictures } from '../../state/desks.ts';
import { trouble } from '../../state/session.ts';

/**
 * Small pictures as the worker makes them, in its order; it is stopped when the sheet goes.
 *
 * @param ask begins the making and hands each picture over; what was asked for at first stays asked for
 */
export function useMade<Option extends { readonly bitmap: ImageBitmap }>(
  ask: (each: (option: Option) => void) => Promise<boolean>,
): { readonly options: readonly Option[]; readonly done: boolean } {
  const [options, setOptions] = useState<readonly Option[]>([]);
  const [done, setDone] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the sheet shows what was when it was opened
  useEffect(() => {
    let wanted = true;
    const each = (option: Option): void => {
      if (wanted) setOptions((old) => [...old, option]);
      else option.bitmap.close();
    };
    ask(each)
      .then(() => wanted && setDone(true))
      .catch((error: Error) => trouble('reading', `The options could not be made: ${error.message}`));
    return () => {
      wanted = false;
      void pictures.desk.stopOptions();
      setOptions((old) => {
        for (const { bitmap } of old) bitmap.close();
        return [];
      });
    };
  }, []);
  return { options, done };
}
