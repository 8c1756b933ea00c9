import type { MetadataSettings } from '@halflight/engine';

type Texts = Pick<MetadataSettings, 'title' | 'author' | 'rights'>;

const DC = 'http://purl.org/dc/elements/1.1/';
const RDF = 'http://www.w3.org/1999/02/22-rdf-syntax-ns#';

/**
 * An XMP packet with title, author and rights as Dublin Core, which is also where IPTC's photo metadata has them.
 * Null when there is nothing to say.
 *
 * Source: ISO 16684-1:2019 (XMP), sections 7 and 8.3; IPTC Photo Metadata Standard 2023.1, "XMP property".
 */
export function writeXmp(texts: Texts): Uint8Array | null {
  const said = description(texts);
  if (said === '') return null;
  const text = `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="${RDF}">
${said} </rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>`;
  return new TextEncoder().encode(text);
}

/** What a packet says of a place: EXIF's position, and IPTC's words for towns, countries and locations. */
const PLACES =
  'GPS\\w*|City|State|Country|CountryCode|CountryName|Location|LocationCreated|LocationShown|LocationId|LocationName|ProvinceState|Sublocation|WorldRegion';

/**
 * The packet of another program with its place taken out (unless it is kept) and our texts in the place of its own.
 * A packet that has no place for them is left out.
 */
export function editXmp(packet: Uint8Array, texts: Texts, keepLocation: boolean): Uint8Array | null {
  let text = new TextDecoder().decode(packet);
  if (!/<\/rdf:RDF>/.test(text)) return writeXmp(texts);
  if (!keepLocation) text = without(text, PLACES);
  const own = Object.entries({ title: texts.title, creator: texts.author, rights: texts.rights });
  const given = own.filter(([, value]) => value !== '').map(([key]) => key);
  if (given.length > 0) text = without(text, given.join('|'), 'dc');
  return new TextEncoder().encode(text.replace('</rdf:RDF>', `${description(texts)}</rdf:RDF>`));
}

/** Elements and attributes of these names taken out, whatever prefix they have unless one is told. */
function without(text: string, names: string, prefix = '[\\w-]+'): string {
  return text
    .replace(new RegExp(`<(${prefix}):(${names})(\\s[^<>]*)?/>\\s*`, 'g'), '')
    .replace(new RegExp(`<(${prefix}):(${names})(\\s[^<>]*)?>[\\s\\S]*?</\\1:\\2>\\s*`, 'g'), '')
    .replace(new RegExp(`\\s(${prefix}):(${names})\\s*=\\s*("[^"]*"|'[^']*')`, 'g'), '');
}

function description({ title, author, rights }: Texts): string {
  const lines = [
    alternative('title', title),
    author && `   <dc:creator><rdf:Seq><rdf:li>${escaped(author)}</rdf:li></rdf:Seq></dc:creator>\n`,
    alternative('rights', rights),
  ].join('');
  return lines === ''
    ? ''
    : `  <rdf:Description rdf:about="" xmlns:dc="${DC}">\n${lines}  </rdf:Description>\n`;
}

function alternative(name: string, text: string): string {
  if (text === '') return '';
  return `   <dc:${name}><rdf:Alt><rdf:li xml:lang="x-default">${escaped(text)}</rdf:li></rdf:Alt></dc:${name}>\n`;
}

/** Text as XML takes it (XML 1.0, sections 2.2 and 2.4): control characters have no place in it. */
export function escaped(text: string): string {
  return [...text]
    .map((c) => {
      const code = c.codePointAt(0) ?? 0;
      if ((code < 32 && !'\t\n\r'.includes(c)) || (code >= 0xd800 && code <= 0xdfff)) return '';
      return { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }[c] ?? c;
    })
    .join('');
}
