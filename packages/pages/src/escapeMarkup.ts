const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Whether XML 1.0 has a place for this character; lone halves of a pair have none. */
function inXml(character: string): boolean {
  const code = character.codePointAt(0)!;
  if (code < 0x20) return code === 0x9 || code === 0xa || code === 0xd;
  return !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff;
}

/**
 * Text as it may stand between tags or inside a quoted attribute of HTML, SVG and XML.
 * Names, notes and metadata come from strangers' files: nothing reaches a page but through here.
 * Characters that XML 1.0 (section 2.2) has no place for become U+FFFD.
 */
export function escapeMarkup(text: string): string {
  return Array.from(text, (one) => ENTITIES[one] ?? (inXml(one) ? one : '\ufffd')).join('');
}
