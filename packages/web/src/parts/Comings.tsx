import { pasteByButton } from '../app/incoming.ts';
import { chooseByDialog } from './FileInput.tsx';

/** The ways a picture comes in, as one sentence. */
export function Comings({ lead }: { lead: string }) {
  return (
    <>
      <button type="button" className="clause" onClick={chooseByDialog}>
        {lead}
      </button>
      ,{' '}
      <button type="button" className="clause" onClick={() => void pasteByButton()}>
        paste one
      </button>
      , or drop it anywhere on the page
    </>
  );
}
