import { startLibrary } from '../../src/node/library.ts';
import type { Image, Library } from '../../src/vips/library.ts';

let started: Promise<Library> | undefined;

/** The library itself, for fixtures in formats that are not worth writing by hand. */
export function vips(): Promise<Library> {
  started ??= startLibrary({ dynamicLibraries: [] });
  return started;
}

export interface ImagePlan {
  readonly width: number;
  readonly height: number;
  readonly bands: number;
  readonly data: Uint8Array | Uint16Array | Float32Array;
  readonly interpretation: string;
  readonly icc?: Uint8Array;
  readonly orientation?: number;
}

async function makeImage(plan: ImagePlan): Promise<Image> {
  const { Image, BandFormat } = await vips();
  const { data } = plan;
  const format =
    data instanceof Uint8Array
      ? BandFormat.uchar
      : data instanceof Uint16Array
        ? BandFormat.ushort
        : BandFormat.float;
  const image = Image.newFromMemory(data, plan.width, plan.height, plan.bands, format).copy({
    interpretation: plan.interpretation,
  });
  if (plan.icc) image.setBlob('icc-profile-data', plan.icc);
  if (plan.orientation) image.setInt('orientation', plan.orientation);
  return image;
}

/** A file of the image: `suffix` such as ".tif", options as the library's savers take them. */
export async function makeFile(plan: ImagePlan, suffix: string, options: object = {}): Promise<Uint8Array> {
  return (await makeImage(plan)).writeToBuffer(suffix, options);
}
