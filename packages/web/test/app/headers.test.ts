import { expect, test } from 'vitest';
import { HEADERS, META_POLICY } from '../../src/headers.ts';

const policy = HEADERS['Content-Security-Policy'];

test('scripts come from the app alone, and nothing is made of text', () => {
  expect(policy).toMatch(/script-src 'self' 'wasm-unsafe-eval'(;|$)/);
  expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
});

test.each(['worker-src', 'style-src', 'font-src', 'connect-src', 'manifest-src'])(
  '%s is the app alone',
  (name) => {
    expect(policy).toContain(`${name} 'self'`);
  },
);

test('memory can be shared', () => {
  expect(HEADERS['Cross-Origin-Opener-Policy']).toBe('same-origin');
  expect(HEADERS['Cross-Origin-Embedder-Policy']).toBe('require-corp');
});

test('the page carries what a meta element can say (CSP 3, section 3.3: no frame-ancestors)', () => {
  expect(policy.startsWith(META_POLICY)).toBe(true);
  expect(META_POLICY).not.toContain('frame-ancestors');
});
