/**
 * The imaging library's script without run-time code generation.
 *
 * wasm-vips 0.0.19 builds two kinds of small functions from text (`new Function`), which a content security
 * policy without 'unsafe-eval' forbids. The text describes plain calls, so closures can do the same. `eval`
 * stands in two more places, for modules that carry JavaScript in themselves; the AVIF module carries none
 * (tested), so there it only has to be gone. The patch fits this exact version: a pattern that is missing
 * throws and so fails the build.
 */
const INVOKER = {
  find: `b=(new Function(v,n+"}\\n"))(...d);return Me(a,b)`,
  put: `b=halflightInvoker(d,{count:p,destructs:h,keepsStack:l,method:c,returns:m,released:h?[]:b.map((k,i)=>i).filter(i=>i>=(c?1:2)&&b[i].I!==null)});return Me(a,b)`,
};

const CALLER = {
  find: `c=(new Function(Object.keys(h),l))(...Object.values(h));`,
  put: `c=halflightCaller(g,c,{toValue:Y,toKey:th,returns:!b.kb,wire:e,give:rh});`,
};

/** A call from JavaScript into the library: convert arguments, call, release, convert the result. */
const INVOKER_SOURCE = `
function halflightInvoker(parts, way) {
  const [, , invoker, fn, runDestructors, fromRetWire, toClassParamWire] = parts;
  const first = way.keepsStack ? 9 : 7;
  const save = way.keepsStack ? parts[7] : null;
  const restore = way.keepsStack ? parts[8] : null;
  const toWire = parts.slice(first, first + way.count);
  const release = parts.slice(first + way.count);
  const shift = way.method ? 1 : 2;
  return function (...args) {
    const destructors = way.destructs ? [] : null;
    const stack = save ? save() : 0;
    const wired = [];
    let result;
    try {
      if (way.method) wired.push(toClassParamWire(destructors, this));
      for (let i = 0; i < way.count; i++) wired.push(toWire[i](destructors, args[i]));
      result = invoker(fn, ...wired);
    } finally {
      if (restore) restore(stack);
    }
    if (destructors) runDestructors(destructors);
    else way.released.forEach((at, i) => release[i](wired[at - shift]));
    return way.returns ? fromRetWire(result) : undefined;
  };
}`;

/** A call from the library into JavaScript: function 0, method 1, constructor 2, cast 3. */
const CALLER_SOURCE = `
function halflightCaller(fromPtr, kind, way) {
  return function (handle, methodName, destructorsRef, pointer) {
    const args = fromPtr.map((read, i) => read(pointer + i * 8));
    let result;
    if (kind === 0) result = way.toValue(handle)(...args);
    else if (kind === 1) result = way.toValue(handle)[way.toKey(methodName)](...args);
    else if (kind === 2) result = new (way.toValue(handle))(...args);
    else result = args[args.length - 1];
    return way.returns ? way.give(way.wire, destructorsRef, result) : undefined;
  };
}`;

const EVAL = /\beval\(/g;
const EVALS = 2;
const REFUSE_SOURCE = `
function halflightRefuse() {
  throw new Error('modules that carry JavaScript are not supported');
}`;

/**
 * The library starts as many threads as there are cores, six at the least, and each takes 8 MB of a tab. Reading and
 * writing use two at a time and one that writes; one more is for a picture that is turned while it is read.
 */
const CORES = 'navigator.hardwareConcurrency>6?navigator.hardwareConcurrency:6';
const THREADS = '4';

/**
 * Takes the text of `wasm-vips/lib/vips-es6.js` and gives it back without `new Function` and `eval`, and with
 * few threads.
 * Throws when the text is not the one this patch was written for.
 */
export function patchVips(script: string): string {
  let out = script;
  for (const { find, put } of [INVOKER, CALLER]) {
    if (out.split(find).length !== 2) throw changed();
    out = out.replace(find, () => put);
  }
  // Once for the workers that stand ready, once for the number that the library keeps to.
  if (out.split(CORES).length !== 3) throw changed();
  out = out.replaceAll(CORES, THREADS);
  if (out.match(EVAL)?.length !== EVALS) throw changed();
  out = out.replace(EVAL, 'halflightRefuse(');
  if (/\bFunction\(/.test(out)) throw changed();
  return `${out}${INVOKER_SOURCE}${CALLER_SOURCE}${REFUSE_SOURCE}\n`;
}

function changed(): Error {
  return new Error('wasm-vips has changed: renew the patch in packages/files/src/vite/patchVips.ts');
}
