/**
 * The response headers the app is made for. Servers that can set headers send them with every file of the
 * app (the build writes them to `headers.json` beside it); on hosts that can't, the service worker adds them
 * after one reload and the page carries the policy in a meta element.
 */
const POLICY: Readonly<Record<string, string>> = {
  'default-src': "'none'",
  'script-src': "'self' 'wasm-unsafe-eval'",
  'worker-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self' blob: data:",
  'font-src': "'self'",
  'connect-src': "'self'",
  'manifest-src': "'self'",
  'object-src': "'none'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'require-trusted-types-for': "'script'",
  'trusted-types': 'default',
};

const written = (policy: Readonly<Record<string, string>>): string =>
  Object.entries(policy)
    .map(([name, value]) => `${name} ${value}`)
    .join('; ');

/** The policy as a meta element can carry it: `frame-ancestors` is only heard in a header. */
export const META_POLICY = written(POLICY);

/** Every header, by name. COOP and COEP give the codec its shared memory. */
export const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': written({ ...POLICY, 'frame-ancestors': "'none'" }),
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=()',
};
