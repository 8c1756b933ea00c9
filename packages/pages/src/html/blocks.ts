import { percent } from '@halflight/engine';
import { escapeMarkup as text } from '../escapeMarkup.ts';
import { markItems } from '../graphics/marks.ts';
import type { Block, Card, GraphicFigure, Note } from '../page/page.ts';
import { svgItems } from '../svg/items.ts';
import type { PaletteColour } from '../types/picture.ts';
import { picturesHtml } from './pictures.ts';
import type { PictureStore } from './store.ts';

/** A block of a page as HTML. */
export function blockHtml(block: Block, store: PictureStore): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${text(block.text)}</h2>`;
    case 'text':
      return `<p class="${block.as}">${text(block.text)}</p>`;
    case 'pictures':
      return picturesHtml(block.figures);
    case 'notes':
      return `<ol class="notes${block.notes.some(({ label }) => label) ? ' numbered' : ''}">
${block.notes.map((note) => noteHtml(note, store)).join('\n')}
</ol>`;
    case 'graphics':
      return `<div class="drawings a${block.across}">
${block.figures.map((figure) => graphicHtml(figure, store)).join('\n')}
</div>`;
    case 'swatches':
      return swatchesHtml(block.colours);
    case 'table':
      return `<dl class="numbers">
${block.rows.map(([label, value]) => `<div><dt>${text(label)}</dt><dd>${text(value)}</dd></div>`).join('\n')}
</dl>`;
    case 'cards':
      return `<ul class="cards">
${block.cards.map((card) => cardHtml(card, store)).join('\n')}
</ul>`;
  }
}

function noteHtml({ label, lead, body, margin, place, swatches = [] }: Note, store: PictureStore): string {
  const number = label === undefined ? '' : `<span class="label">${text(label)}</span>`;
  const said = [
    `<p class="lead">${text(lead)}</p>`,
    ...body.map((line) => `<p class="body">${text(line)}</p>`),
  ].join('');
  const beside = [
    ...(place ? [placeHtml(place, store)] : []),
    ...swatches.map(
      ({ label: name, hex }) => `<p class="swatch">${patch(hex)}<span>${text(name)} ${text(hex)}</span></p>`,
    ),
    ...margin.map((line) => `<p>${text(line)}</p>`),
  ].join('');
  const right = beside ? `<div class="margin">${beside}</div>` : '';
  return `<li><div class="said">${number}${said}</div>${right}</li>`;
}

/** A small picture with places drawn on it, at a size at which the lines have their width. */
function placeHtml({ picture, alt, marks = [] }: NonNullable<Note['place']>, store: PictureStore): string {
  const scale = Math.min(208 / picture.width, 176 / picture.height);
  const width = Math.round(scale * picture.width);
  const height = Math.round(scale * picture.height);
  const drawn = svgItems(markItems(marks, 0, 0, width, height), { outlines: null, picture: store.use });
  return `<svg class="place" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${text(alt)}">${store.use(picture, `width="${width}" height="${height}"`)}${drawn}</svg>`;
}

function graphicHtml({ graphic, title, caption, alt }: GraphicFigure, store: PictureStore): string {
  const { width, height, items } = graphic;
  const head = title ? `<h3>${text(title)}</h3>` : '';
  const foot = caption ? `<figcaption>${text(caption)}</figcaption>` : '';
  // A caption that says the same need not be read twice.
  const name = caption === alt ? 'aria-hidden="true"' : `role="img" aria-label="${text(alt)}"`;
  const drawn = svgItems(items, { outlines: null, picture: store.use });
  return `<figure>${head}<svg viewBox="0 0 ${width} ${height}" width="${Math.round(width)}" height="${Math.round(height)}" ${name}>${drawn}</svg>${foot}</figure>`;
}

function swatchesHtml(colours: readonly PaletteColour[]): string {
  const sum = colours.reduce((total, { share }) => total + share, 0) || 1;
  let x = 0;
  const bars = colours.map(({ hex, share }) => {
    const bar = `<rect x="${(x / sum).toFixed(5)}" width="${(share / sum).toFixed(5)}" height="1" fill="${text(hex)}"/>`;
    x += share;
    return bar;
  });
  const names = colours.map(
    ({ name, hex, share }) =>
      `<li>${patch(hex)}<span><strong>${text(name)}</strong>${text(hex)} ${percent(share)}</span></li>`,
  );
  return `<svg class="bar" viewBox="0 0 1 1" preserveAspectRatio="none" shape-rendering="crispEdges" aria-hidden="true">${bars.join('')}</svg>
<ul class="palette">
${names.join('\n')}
</ul>`;
}

const patch = (hex: string): string =>
  `<svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true"><rect width="1" height="1" fill="${text(hex)}"/></svg>`;

function cardHtml({ picture, alt, title, lines, href }: Card, store: PictureStore): string {
  const { width, height } = picture;
  const shown = `<svg viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${text(alt)}">${store.use(picture, `width="${width}" height="${height}"`)}</svg>`;
  const to = href === undefined ? null : relativeAddress(href);
  const name = to === null ? text(title) : `<a href="${text(to)}">${text(title)}</a>`;
  return `<li><div class="hung">${shown}</div><h3>${name}</h3>${lines.map((line) => `<p>${text(line)}</p>`).join('')}</li>`;
}

/** An address that stays beside the page; null for one that leads anywhere else. */
function relativeAddress(href: string): string | null {
  if (/^\s*(?:[a-z][a-z0-9+.-]*:|[/\\])/i.test(href)) return null;
  return href.split('/').map(encodeURIComponent).join('/');
}
