import { useEffect } from 'react';
import { chooseByDialog } from '../parts/FileInput.tsx';
import { zoomStage } from '../parts/stage/Stage.tsx';
import { redo, undo } from '../state/edit.ts';
import { get, set } from '../state/session.ts';
import { useSettings } from '../state/settings.ts';
import { showHelp } from './Help.tsx';
import { dropped, pasteEvent } from './incoming.ts';
import { type KeyName, keyWish } from './keys.ts';
import { go, isWorkRoute, type WorkScreen } from './route.ts';

/** Listens to the whole page: keys, drops and pastes. */
export function useHands(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const target = event.target as HTMLElement;
      const writing = target.closest(
        'input:not([type=range]):not([type=checkbox]), textarea, select, [contenteditable]',
      );
      if (event.defaultPrevented || document.querySelector('dialog[open]')) return;
      const wish = keyWish(event, useSettings.getState().singleKeys);
      if (wish === null) return;
      if (writing && wish !== 'close') return;
      const moving = wish === 'next' || wish === 'previous';
      if (target instanceof HTMLInputElement && moving) return;
      if (ACTS[wish]?.()) event.preventDefault();
    };
    const onPaste = (event: ClipboardEvent): void => {
      if (pasteEvent(event.clipboardData)) event.preventDefault();
    };
    const onDragOver = (event: DragEvent): void => {
      if (!event.dataTransfer?.types.includes('Files')) return;
      event.preventDefault();
      document.documentElement.dataset.dropping = '';
    };
    const onDragLeave = (event: DragEvent): void => {
      if (event.relatedTarget === null) delete document.documentElement.dataset.dropping;
    };
    const onDrop = (event: DragEvent): void => {
      delete document.documentElement.dataset.dropping;
      if (!event.dataTransfer?.types.includes('Files')) return;
      event.preventDefault();
      dropped(event.dataTransfer);
    };
    window.addEventListener('keydown', onKey);
    window.addEventListener('paste', onPaste);
    window.addEventListener('dragover', onDragOver);
    window.addEventListener('dragleave', onDragLeave);
    window.addEventListener('drop', onDrop);
    return () => {
      window.removeEventListener('keydown', onKey);
      window.removeEventListener('paste', onPaste);
      window.removeEventListener('dragover', onDragOver);
      window.removeEventListener('dragleave', onDragLeave);
      window.removeEventListener('drop', onDrop);
    };
  }, []);
}

/** What each key does; false when there is nothing to do, so that the browser may. */
const ACTS: Partial<Record<KeyName, () => boolean>> = {
  next: () => moveFocus(1),
  previous: () => moveFocus(-1),
  close: () => {
    const { openNote } = get();
    if (openNote === null) return false;
    document.querySelector<HTMLElement>(`[data-anchor="${CSS.escape(openNote)}"]`)?.focus();
    set({ openNote: null });
    return true;
  },
  check: () => toScreen('check'),
  intent: () => toScreen('intent'),
  rework: () => toScreen('rework'),
  standBack: () => toScreen('standback'),
  progress: () => toScreen('progress'),
  thinout: () => toScreen('thinout'),
  handover: () => toScreen('handover'),
  shelf: () => {
    go({ screen: 'shelf' });
    return true;
  },
  picture: () => focus('.stage'),
  closer: () => zoom('closer'),
  farther: () => zoom('farther'),
  whole: () => zoom('whole'),
  own: () => zoom('own'),
  help: () => {
    showHelp();
    return true;
  },
  choose: () => {
    chooseByDialog();
    return true;
  },
  undo: () => {
    undo();
    return true;
  },
  redo: () => {
    redo();
    return true;
  },
};

/** Moves from note to note, or from work to work on the shelf. */
function moveFocus(by: number): boolean {
  const stops = [...document.querySelectorAll<HTMLElement>('.note h3 button, .row-open')].filter(
    (stop) => stop.offsetParent !== null,
  );
  if (stops.length === 0) return false;
  const at = stops.indexOf(document.activeElement as HTMLElement);
  const next = at < 0 ? (by > 0 ? 0 : stops.length - 1) : Math.min(stops.length - 1, Math.max(0, at + by));
  stops[next].focus();
  return true;
}

function toScreen(screen: WorkScreen): boolean {
  const work = get().history?.present.id;
  if (!work) return false;
  go({ screen, work });
  return true;
}

function zoom(wish: Parameters<typeof zoomStage>[1]): boolean {
  const { picture, route } = get();
  if (picture === null || !isWorkRoute(route)) return false;
  zoomStage(picture, wish);
  return true;
}

function focus(selector: string): boolean {
  const element = document.querySelector<HTMLElement>(selector);
  element?.focus();
  return element !== null;
}
