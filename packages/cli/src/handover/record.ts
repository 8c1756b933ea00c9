import { editStages, type ProcessSettings, type Recipe, type View, workingSteps } from '@halflight/engine';
import type { Codec, Decoded } from '@halflight/files';
import { holdMarkup } from '@halflight/files/handover';
import { drawSvg, encodeForPage, showView } from '@halflight/files/node';
import { editStripPage, layOut, sheetSvg, stepWords, stripPaper } from '@halflight/pages';
import { PICTURES } from '../report/collect.ts';
import { typeface } from '../report/fonts.ts';
import { checkedAnimation } from './animation.ts';
import type { Versions } from './source.ts';

/** What is recorded. */
interface Recorded {
  readonly codec: Codec;
  readonly decoded: Decoded;
  readonly close: View;
  readonly recipe: Recipe;
  readonly title: string;
  /** What the files begin with. */
  readonly name: string;
  readonly versions: Versions | null;
}

/** Long side of the small pictures of a strip. */
const SMALL = 420;

/**
 * Writes how a picture came to be: the edit step by step and, of a work, its versions, each as an animation and as a
 * strip (PNG and SVG). Gives what the artist should know.
 */
export async function saveRecord(
  { codec, decoded, close, recipe, title, name, versions }: Recorded,
  { side, seconds }: ProcessSettings,
  save: (name: string, bytes: Uint8Array) => Promise<void>,
): Promise<string[]> {
  const { space, width, height } = decoded.raster;
  const play = async (file: string, pictures: readonly Uint8Array[]): Promise<void> => {
    const scale = Math.min(1, side / Math.max(width, height));
    const size = { width: Math.round(scale * width), height: Math.round(scale * height) };
    await save(file, await checkedAnimation(codec, pictures, { ...size, seconds, name: file }));
  };
  const steps = workingSteps(recipe);
  if (steps.length > 0) {
    const stages: Uint8Array[] = [];
    for (const stage of editStages(recipe, close, side, space))
      stages.push(await encodeForPage(showView(stage), 'png'));
    await play(`${name}.edit.webp`, stages);
    const small = editStages(recipe, close, SMALL, space);
    const pictures = await Promise.all(small.map((stage) => PICTURES.view(stage, SMALL)));
    const page = editStripPage(title, pictures, steps.map(stepWords));
    const face = await typeface();
    const svg = sheetSvg(layOut(page, stripPaper(page), face), face);
    holdMarkup(svg, { counts: { svg: 1, title: 1, image: pictures.length }, texts: [] }, `${name}.edit.svg`);
    const drawn = await drawSvg(svg);
    await codec.readCodes(drawn);
    await save(`${name}.edit.png`, drawn);
    await save(`${name}.edit.svg`, new TextEncoder().encode(svg));
  }
  if (versions) {
    const pictures: Uint8Array[] = [];
    for await (const picture of versions.pictures(side)) pictures.push(picture);
    await play(`${name}.versions.webp`, pictures);
    const strip = await versions.strip('png');
    await codec.readCodes(strip);
    await save(`${name}.versions.png`, strip);
    await save(`${name}.versions.svg`, await versions.strip('svg'));
  }
  return steps.length === 0 && !versions
    ? ['There is neither an edit nor an earlier version, so that there is nothing to record.']
    : [];
}
