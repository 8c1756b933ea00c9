import type { PictureFacts } from '@halflight/engine';
import { useState } from 'react';
import type { Seen } from '../../picture/desk.ts';
import { say } from '../../state/session.ts';

/** All numbers of the readings as one line of JSON on the clipboard, as the command line prints them. */
export function CopyNumbers({ picture, seen }: { picture: PictureFacts; seen: Seen }) {
  const [copied, setCopied] = useState(false);
  const copy = async (): Promise<void> => {
    await navigator.clipboard.writeText(JSON.stringify({ picture, readings: seen.readings }));
    setCopied(true);
    say('The numbers are on the clipboard.');
  };
  return (
    <p className="caption quiet">
      <button type="button" className="clause" onClick={() => void copy()}>
        Copy all numbers
      </button>
      {copied ? ', done.' : ' as JSON.'}
    </p>
  );
}
