interface TrustedTypes {
  createPolicy(name: string, rules: { createScriptURL(url: string): string }): unknown;
}

/*
 * Imported before everything else. Where the browser has Trusted Types, only scripts of our own origin can be
 * started, and text never becomes script or HTML: the policy knows no other way.
 */
const { trustedTypes } = globalThis as unknown as { trustedTypes?: TrustedTypes };
trustedTypes?.createPolicy('default', {
  createScriptURL: (url) => {
    const address = new URL(url, location.href);
    if (address.origin !== location.origin) throw new TypeError('Only scripts of this site may be started.');
    return url;
  },
});

export {};
