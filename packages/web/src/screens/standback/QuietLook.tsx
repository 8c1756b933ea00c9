import { type RefObject, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { screenSpace } from '../../picture/client.ts';
import type { OpenedPicture } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import { endLook, type Surround, useLook } from '../../state/look.ts';
import { greyOf } from './looks.ts';

/** Share of the screen that the picture takes when it is large, and when it is small. */
const LARGE = 0.94;
const SMALL = 0.22;

/**
 * The quiet look: the whole picture and nothing else, until a key, a tap or the time ends it. One change of size
 * at most, softly or at once: nothing flashes.
 */
export function QuietLook({ picture, average }: { picture: OpenedPicture; average: number | null }) {
  const wish = useLook((state) => state.wish);
  const dialog = useRef<HTMLDialogElement>(null);
  const [small, setSmall] = useState(wish.sizes === 'small');
  useAwake();

  useEffect(() => {
    const begun = performance.now();
    const end = (): void => endLook((performance.now() - begun) / 1000);
    const { seconds, sizes } = wish;
    const timers = [setTimeout(end, 1000 * seconds)];
    if (sizes === 'both') timers.push(setTimeout(() => setSmall(true), 500 * seconds));
    // The browser keeps Esc to itself on the whole screen: leaving that is the end as well.
    let wasWhole = document.fullscreenElement !== null;
    const left = (): void => {
      if (wasWhole && document.fullscreenElement === null) end();
      wasWhole = document.fullscreenElement !== null;
    };
    const stop = (event: Event): void => {
      event.preventDefault();
      end();
    };
    const element = dialog.current;
    element?.showModal();
    document.addEventListener('fullscreenchange', left);
    element?.addEventListener('keydown', stop);
    element?.addEventListener('pointerup', stop);
    element?.addEventListener('cancel', stop);
    return () => {
      timers.forEach(clearTimeout);
      document.removeEventListener('fullscreenchange', left);
      element?.removeEventListener('keydown', stop);
      element?.removeEventListener('pointerup', stop);
      element?.removeEventListener('cancel', stop);
    };
  }, [wish]);

  return (
    <dialog
      ref={dialog}
      className="quiet-look"
      aria-label={`The quiet look, ${wish.seconds} seconds. Any key ends it.`}
      data-mirrored={wish.mirrored || undefined}
      style={{ '--surround': surroundGrey(wish.surround, average) } as React.CSSProperties}
    >
      {wish.sizes !== 'small' && <Shown picture={picture} part={LARGE} visible={!small} />}
      {wish.sizes !== 'large' && <Shown picture={picture} part={SMALL} visible={small} />}
    </dialog>
  );
}

/** The whole picture at one size, in the pixels of the screen. */
function Shown({ picture, part, visible }: { picture: OpenedPicture; part: number; visible: boolean }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  usePixels(canvas, picture, part, useWindowSize());
  return <canvas ref={canvas} data-visible={visible || undefined} aria-hidden />;
}

/** The size of the window: the whole screen may come a moment after the look has begun. */
function useWindowSize(): string {
  return useSyncExternalStore(
    (changed) => {
      window.addEventListener('resize', changed);
      return () => window.removeEventListener('resize', changed);
    },
    () => `${window.innerWidth} ${window.innerHeight}`,
  );
}

function usePixels(
  ref: RefObject<HTMLCanvasElement | null>,
  picture: OpenedPicture,
  part: number,
  windowSize: string,
): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn again for another size of the window
  useEffect(() => {
    const canvas = ref.current;
    const context = canvas?.getContext('2d', { colorSpace: screenSpace() });
    if (!canvas || !context) return;
    const { width, height } = picture.facts;
    const ratio = window.devicePixelRatio;
    const scale = Math.min((part * window.innerWidth) / width, (part * window.innerHeight) / height);
    const outWidth = Math.max(1, Math.round(scale * ratio * width));
    const outHeight = Math.max(1, Math.round(scale * ratio * height));
    canvas.width = outWidth;
    canvas.height = outHeight;
    canvas.style.width = `${outWidth / ratio}px`;
    canvas.style.height = `${outHeight / ratio}px`;
    context.imageSmoothingQuality = 'high';
    context.drawImage(picture.bitmap, 0, 0, outWidth, outHeight);
    let wanted = true;
    // The close view stands at once; the same picture from its own pixels comes when it is made.
    pictures.desk
      .window({ x: 0, y: 0, width, height, outWidth, outHeight })
      .then((sharp) => {
        if (wanted) {
          context.clearRect(0, 0, outWidth, outHeight);
          context.drawImage(sharp, 0, 0);
        }
        sharp.close();
      })
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [ref, picture, part, windowSize]);
}

interface Lock {
  release(): Promise<void>;
}

/** Keeps the screen awake while it lasts, where the browser can. */
function useAwake(): void {
  useEffect(() => {
    let lock: Lock | null = null;
    let over = false;
    const { wakeLock } = navigator as { wakeLock?: { request(kind: 'screen'): Promise<Lock> } };
    wakeLock
      ?.request('screen')
      .then((it) => {
        lock = it;
        if (over) void it.release();
      })
      .catch(() => undefined);
    return () => {
      over = true;
      void lock?.release().catch(() => undefined);
    };
  }, []);
}

/** The grey around the picture: L* 20, L* 50, or as light as the picture is on the average. */
function surroundGrey(surround: Surround, average: number | null): string {
  if (surround === 'dark') return 'var(--grey-20)';
  return surround === 'grey' || average === null ? 'var(--grey-50)' : greyOf(average);
}
