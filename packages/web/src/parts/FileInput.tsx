import { chooseFiles } from '../app/incoming.ts';
import type { ComingAs } from '../state/open.ts';

const ID = 'pictures-to-open';
/** What the pictures that are being chosen are taken for. */
let chosenAs: ComingAs = 'fits';

/** The browser's own file chooser; it is on every screen and never seen. */
export function FileInput() {
  return (
    <input
      id={ID}
      type="file"
      className="unseen"
      aria-label="Pictures or dossiers to open"
      tabIndex={-1}
      multiple
      accept="image/*,.tif,.tiff,.ora,.halflight,.zip"
      onChange={(event) => {
        const files = [...(event.target.files ?? [])];
        event.target.value = '';
        void chooseFiles(files, chosenAs);
        chosenAs = 'fits';
      }}
    />
  );
}

export function chooseByDialog(as: ComingAs = 'fits'): void {
  chosenAs = as;
  document.getElementById(ID)?.click();
}
