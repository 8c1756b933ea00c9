type Calls<T> = {
  [K in keyof T]: T[K] extends (...args: infer A) => Promise<infer R> ? (...args: A) => Promise<R> : never;
};

/**
 * A part of the worker that is loaded when it is first called: the page starts without it.
 *
 * @param names all its calls
 */
export function later<T extends Calls<T>>(names: readonly (keyof T)[], load: () => Promise<T>): T {
  let part: Promise<T> | null = null;
  const call =
    (name: keyof T) =>
    async (...args: unknown[]) => {
      part ??= load();
      return ((await part)[name] as (...all: unknown[]) => unknown)(...args);
    };
  return Object.fromEntries(names.map((name) => [name, call(name)])) as T;
}
