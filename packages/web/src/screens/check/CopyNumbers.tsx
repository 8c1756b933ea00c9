import type { PictureFacts } from '@halflight/engine';
import { checkLine } from '@halflight/engine';
import { useState } from 'react';
import type { Seen } from '../../picture/desk.ts';
import { say } from '../../state/session.ts';

/** All numbers of the readings on the clipboard: the line that `halflight check --json` prints. */
export function CopyNumbers({ picture, seen }: { picture: PictureFacts; seen: Seen }) {
  const [copied, setCopied] = useState<Seen['readings'] | null>(null);
  const copy = async (): Promise<void> => {
    await navigator.clipboard.writeText(checkLine({ ...seen, picture }, null));
    setCopied(seen.readings);
    say('The numbers are on the clipboard.');
  };
  return (
    <p className="caption quiet">
      <button type="button" className="clause" onClick={() => void copy()}>
        Copy all numbers
      </button>
      {copied === seen.readings ? ', done.' : ' as JSON.'}
    </p>
  );
}
