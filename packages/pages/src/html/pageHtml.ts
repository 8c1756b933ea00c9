import { escapeMarkup } from '../escapeMarkup.ts';
import type { Page } from '../page/page.ts';
import type { Typeface } from '../sheet/typeface.ts';
import { blockHtml } from './blocks.ts';
import { faceCss } from './face.ts';
import { openStore } from './store.ts';
import { STYLE } from './style.ts';

/** Nothing is fetched and nothing runs: pictures, letters and style are inside. */
const POLICY = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; font-src data:";

/** A page as one HTML file, complete in itself: works offline, holds no script, makes no request. */
export function pageHtml(page: Page, typeface: Typeface): string {
  const store = openStore();
  const blocks = page.blocks.map((block) => blockHtml(block, store)).join('\n');
  const text = escapeMarkup;
  const author = page.author ? `\n<meta name="author" content="${text(page.author)}">` : '';
  const closing = page.closing.length > 0 ? `<footer><p>${text(page.closing.join(' '))}</p></footer>\n` : '';
  const body = `<header>
<h1>${text(page.title)}</h1>
<p class="under">${text(page.under)}</p>
</header>
<main>
${blocks}
</main>
${closing}`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">${author}
<title>${text(page.title)}</title>
<style>
${faceCss(body, typeface)}
${STYLE}
</style>
</head>
<body>
${store.markup()}${body}</body>
</html>
`;
}
