type Calls<T> = {
  [K in keyof T]: T[K] extends (...args: infer A) => Promise<infer R> ? (...args: A) => Promise<R> : never;
};

/**
 * A part of the worker that is loaded when it is first called: the page starts without it.
 *
 * @param names all its calls; one that is missing does not compile
 */
export function later<T extends Calls<T>>(
  names: { readonly [K in keyof T]: true },
  load: () => Promise<T>,
): T {
  let part: Promise<T> | null = null;
  const call =
    (name: keyof T) =>
    async (...args: unknown[]) => {
      // What could not be loaded is tried again with the next call.
      part ??= load().catch((reason: unknown) => {
        part = null;
        throw reason;
      });
      return ((await part)[name] as (...all: unknown[]) => unknown)(...args);
    };
  return Object.fromEntries(Object.keys(names).map((name) => [name, call(name as keyof T)])) as T;
}
