// A number and its percent sign stay together.
const JOINED = '\u00a0';

/**
 * Breaks text into lines of at most `width` characters at its spaces; a longer word stands alone.
 *
 * @param indent stands before every line and counts
 */
export function wrap(text: string, width: number, indent = ''): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text
    .replace(/(\d)\s+%/g, `$1${JOINED}%`)
    .split(/[ \n\t]+/)
    .filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && indent.length + longer.length > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines.map((l) => indent + l.replaceAll(JOINED, ' ')).join('\n');
}
