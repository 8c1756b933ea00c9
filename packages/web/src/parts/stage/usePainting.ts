import { type RefObject, useEffect, useRef } from 'react';
import { screenSpace } from '../../picture/client.ts';
import type { OpenedPicture } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import { type StageView, visiblePart } from './view.ts';

/** After this pause the visible part is fetched at its true sharpness. */
const REST = 140;

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
): void {
  const sharp = useRef<Sharp | null>(null);
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
      drawAll(canvas, ratio, picture, view, sharp.current, veil, strength);
      if (veil && strength < 1) frame = requestAnimationFrame(paint);
    };
    paint();
    return () => cancelAnimationFrame(frame);
  });

  useEffect(() => {
    const ratio = window.devicePixelRatio;
    const { facts, bitmap } = picture;
    const closeScale = bitmap.width / facts.width;
    if (stage.width === 0 || view.scale * ratio <= closeScale * 1.05) return;
    const part = visiblePart(view, facts, stage);
    if (part === null) return;
    let wanted = true;
    const timer = setTimeout(async () => {
      const outWidth = Math.max(1, Math.round(part.width * view.scale * ratio));
      const outHeight = Math.max(1, Math.round(part.height * view.scale * ratio));
      const fetched = await pictures.desk.window({ ...part, outWidth, outHeight }).catch(() => null);
      if (fetched === null) return;
      if (!wanted) return fetched.close();
      sharp.current?.bitmap.close();
      sharp.current = { bitmap: fetched, part };
      const canvas = canvasRef.current;
      if (canvas) drawAll(canvas, ratio, picture, view, sharp.current, shown.current.veil, 1);
    }, REST);
    return () => {
      wanted = false;
      clearTimeout(timer);
      sharp.current?.bitmap.close();
      sharp.current = null;
    };
  }, [canvasRef, picture, view, stage]);
}

function drawAll(
  canvas: HTMLCanvasElement,
  ratio: number,
  { bitmap, facts }: OpenedPicture,
  { scale, x, y }: StageView,
  sharp: Sharp | null,
  veil: HTMLCanvasElement | null,
  strength: number,
): void {
  const context = canvas.getContext('2d', { colorSpace: screenSpace() });
  if (context === null || bitmap.width === 0) return;
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.clearRect(0, 0, canvas.width, canvas.height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, x, y, facts.width * scale, facts.height * scale);
  if (sharp) {
    const { part } = sharp;
    context.clearRect(x + part.x * scale, y + part.y * scale, part.width * scale, part.height * scale);
    context.drawImage(
      sharp.bitmap,
      x + part.x * scale,
      y + part.y * scale,
      part.width * scale,
      part.height * scale,
    );
  }
  if (veil) {
    context.globalAlpha = strength;
    context.drawImage(veil, x, y, facts.width * scale, facts.height * scale);
    context.globalAlpha = 1;
  }
}
