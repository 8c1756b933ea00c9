import { chooseFiles } from '../app/incoming.ts';

const ID = 'pictures-to-open';

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
      accept="image/*,.tif,.tiff,.halflight,.zip"
      onChange={(event) => {
        const files = [...(event.target.files ?? [])];
        event.target.value = '';
        void chooseFiles(files);
      }}
    />
  );
}

export function chooseByDialog(): void {
  document.getElementById(ID)?.click();
}
