import type { Library, Start } from '../vips/library.ts';

/** Starts the imaging library in this process. Its warnings are not for people: trouble is told by errors. */
export const startLibrary: Start = async (options) => {
  const { default: Vips } = await import('wasm-vips');
  const vips = await Vips({
    ...options,
    print: () => {},
    printErr: () => {},
    preRun: (module) => {
      module.ENV.VIPS_WARNING = '1';
    },
  });
  return vips as unknown as Library;
};
