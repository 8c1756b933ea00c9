import { pasteByButton } from '../app/incoming.ts';
import type { ComingAs } from '../state/open.ts';
import { chooseByDialog } from './FileInput.tsx';

/** The ways a picture comes in, as one sentence. */
export function Comings({ lead, as = 'fits' }: { lead: string; as?: ComingAs }) {
  return (
    <>
      <span className="held">
        <button type="button" className="clause" onClick={() => chooseByDialog(as)}>
          {lead}
        </button>
        ,
      </span>{' '}
      <span className="held">
        <button type="button" className="clause" onClick={() => void pasteByButton(as)}>
          paste one
        </button>
        ,
      </span>{' '}
      or drop it anywhere on the page
    </>
  );
}
