import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';

/** Hands files to the page, all at once, as a drop or a paste does. */
export async function hand(page: Page, kind: 'drop' | 'paste', paths: readonly string[]): Promise<void> {
  const list = paths.map((path) => ({
    name: path.split('/').at(-1) ?? '',
    data: readFileSync(path).toString('base64'),
  }));
  await page.evaluate(
    ({ kind, list }) => {
      const data = new DataTransfer();
      for (const { name, data: coded } of list) {
        const bytes = Uint8Array.from(atob(coded), (letter) => letter.charCodeAt(0));
        data.items.add(new File([bytes], name, { type: name.endsWith('.png') ? 'image/png' : '' }));
      }
      const event =
        kind === 'drop'
          ? new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true })
          : new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true });
      document.body.dispatchEvent(event);
    },
    { kind, list },
  );
}
