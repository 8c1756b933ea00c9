import { type RefObject, useEffect, useRef } from 'react';
import { screenSpace } from '../../picture/client.ts';
import type { OpenedPicture, PictureWindow } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import { type StageView, visiblePart } from './view.ts';

/** After this pause the visible part is fetched at its true sharpness. */
const REST = 140;

/** The picture as an edit makes it. */
export interface StageEdit {
  /** The whole of it, quickly made; null until the first is there. */
  readonly image: CanvasImageSource | null;
  /** Fetches a part as it will be written, null when it is no longer wanted; null while the edit is still changing. */
  readonly window: ((part: PictureWindow) => Promise<ImageBitmap | null>) | null;
  /** Seconds for one fade from before to after; null for none. */
  readonly fade: number | null;
  /** Share of the edit that is shown when nothing fades, 0…1. */
  readonly part: number;
}

interface Sharp {
  readonly bitmap: ImageBitmap;
  readonly part: { x: number; y: number; width: number; height: number };
}

/**
 * Paints the picture on the stage: at once from the close view, and once the view rests from the full-size
 * pixels where they show more. A veil, if any, comes in within a moment.
 */
export function usePainting(
  canvasRef: RefObject<HTMLCanvasElement | null>,
  picture: OpenedPicture,
  view: StageView,
  stage: { width: number; height: number },
  veil: HTMLCanvasElement | null,
  edit: StageEdit | null,
): void {
  const sharp = useRef<Sharp | null>(null);
  const repaint = useRef<() => void>(() => undefined);
  const shown = useRef({ veil: null as HTMLCanvasElement | null, since: 0 });

  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null || stage.width === 0) return;
    const ratio = window.devicePixelRatio;
    const width = Math.round(stage.width * ratio);
    const height = Math.round(stage.height * ratio);
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
    }
    if (shown.current.veil !== veil) shown.current = { veil, since: performance.now() };
    let frame = 0;
    const paint = (): void => {
      const still = matchMedia('(prefers-reduced-motion: reduce)').matches;
      const strength = still ? 1 : Math.min(1, (performance.now() - shown.current.since) / 150);
      const part = edit?.fade ? fadedPart(performance.now() / 1000 / edit.fade) : (edit?.part ?? 1);
      drawAll(canvas, ratio, picture, view, { edit, part, sharp: sharp.current, veil, strength });
      if ((veil && strength < 1) || edit?.fade) frame = requestAnimationFrame(paint);
    };
    repaint.current = paint;
    paint();
    return () => cancelAnimationFrame(frame);
  });

  const edited = edit !== null;
  const fetchEdited = edit?.window ?? null;
  useEffect(() => {
    const ratio = window.devicePixelRatio;
    const { facts, bitmap } = picture;
    const closeScale = bitmap.width / facts.width;
    if (stage.width === 0) return;
    if (edited ? fetchEdited === null : view.scale * ratio <= closeScale * 1.05) return;
    const part = visiblePart(view, facts, stage);
    if (part === null) return;
    let wanted = true;
    const timer = setTimeout(async () => {
      const outWidth = Math.max(1, Math.round(part.width * view.scale * ratio));
      const outHeight = Math.max(1, Math.round(part.height * view.scale * ratio));
      const wish = { ...part, outWidth, outHeight };
      const fetched = await (fetchEdited?.(wish) ?? pictures.desk.window(wish)).catch(() => null);
      if (fetched === null) return;
      if (!wanted) return fetched.close();
      sharp.current?.bitmap.close();
      sharp.current = { bitmap: fetched, part };
      repaint.current();
      if (canvasRef.current) canvasRef.current.dataset.sharp = '';
    }, REST);
    return () => {
      wanted = false;
      clearTimeout(timer);
      sharp.current?.bitmap.close();
      sharp.current = null;
      if (canvasRef.current) delete canvasRef.current.dataset.sharp;
    };
  }, [canvasRef, picture, view, stage, edited, fetchEdited]);
}

/** How much of the edit a fade shows: from nothing to all of it and back, without a jump. */
function fadedPart(turns: number): number {
  return (1 - Math.cos(Math.PI * turns)) / 2;
}

function drawAll(
  canvas: HTMLCanvasElement,
  ratio: number,
  { bitmap, facts }: OpenedPicture,
  { scale, x, y }: StageView,
  {
    edit,
    part,
    sharp,
    veil,
    strength,
  }: {
    edit: StageEdit | null;
    part: number;
    sharp: Sharp | null;
    veil: HTMLCanvasElement | null;
    strength: number;
  },
): void {
  const context = canvas.getContext('2d', { colorSpace: screenSpace() });
  if (context === null || bitmap.width === 0) return;
  const whole = [x, y, facts.width * scale, facts.height * scale] as const;
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.clearRect(0, 0, canvas.width, canvas.height);
  context.imageSmoothingQuality = 'high';
  const image = edit?.image ?? null;
  if (image === null || part < 1) context.drawImage(bitmap, ...whole);
  context.globalAlpha = edit ? part : 1;
  if (image) {
    // A transparent picture must not show through its edited self.
    if (part === 1) context.clearRect(...whole);
    context.drawImage(image, ...whole);
  }
  if (sharp) {
    // Pixel by pixel: what was made for this size must not be smoothed again.
    const { part: at, bitmap: pixels } = sharp;
    const left = Math.round((x + at.x * scale) * ratio);
    const top = Math.round((y + at.y * scale) * ratio);
    context.setTransform(1, 0, 0, 1, 0, 0);
    if (part === 1) context.clearRect(left, top, pixels.width, pixels.height);
    context.drawImage(pixels, left, top);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
  }
  if (veil) {
    context.globalAlpha = strength;
    context.drawImage(veil, ...whole);
  }
  context.globalAlpha = 1;
}
