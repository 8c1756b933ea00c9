/** Hands what the test asks for to the worker and its answers back. */
const { trustedTypes } = globalThis as unknown as {
  trustedTypes?: { createPolicy(name: string, rules: { createScriptURL(url: string): string }): unknown };
};
trustedTypes?.createPolicy('default', { createScriptURL: (url) => url });
const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
let next = 0;
const waiting = new Map<number, (answer: unknown) => void>();
worker.onmessage = ({ data: { id, answer } }) => {
  waiting.get(id)?.(answer);
  waiting.delete(id);
};

Object.assign(globalThis, {
  ask: (question: object) =>
    new Promise((resolve) => {
      waiting.set(next, resolve);
      worker.postMessage({ id: next++, base: new URL('./', location.href).href, question });
    }),
});
