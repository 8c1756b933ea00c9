import { describe, expect, test } from 'vitest';
import { escapeMarkup } from '../src/escapeMarkup.ts';

/** XML 1.0 (fifth edition), sections 2.2 (characters) and 2.4 (markup). */
describe('text in a page', () => {
  test.each([
    ['Ferry landing', 'Ferry landing'],
    ['<script>alert(1)</script>', '&lt;script&gt;alert(1)&lt;/script&gt;'],
    [`" onload='x' &`, '&quot; onload=&#39;x&#39; &amp;'],
    ['&amp;', '&amp;amp;'],
    ['a\u0000b\u000bc', 'a\ufffdb\ufffdc'],
    ['tab\tline\n', 'tab\tline\n'],
    ['lone \ud800 half', 'lone \ufffd half'],
    ['whole \u{1f30a}', 'whole \u{1f30a}'],
  ])('%j', (text, page) => {
    expect(escapeMarkup(text)).toBe(page);
  });
});
