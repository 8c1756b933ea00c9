import { useEffect, useState } from 'react';
import type { OpenedPicture } from '../../../picture/desk.ts';
import type { AttachedEdit, ClassWork } from '../../../state/class-document.ts';
import { classPicture } from '../../../state/class-files.ts';
import type { ReadWork } from '../../../state/class-reading.ts';

/** The kept picture of a work as the stage shows it: its size is that of the kept picture. Null while it comes. */
export function usePagePicture(work: ClassWork, read: ReadWork): OpenedPicture | null {
  const [picture, setPicture] = useState<OpenedPicture | null>(null);
  const { facts } = read;
  useEffect(() => {
    let wanted = true;
    let opened: ImageBitmap | null = null;
    const open = async (): Promise<void> => {
      const page = await classPicture('page', work.id);
      if (page === null) return;
      opened = await createImageBitmap(page);
      if (!wanted) return opened.close();
      const { width, height } = opened;
      setPicture({ facts: { ...facts, width, height }, bitmap: opened, thumb: page, remarks: [] });
    };
    void open().catch(() => undefined);
    return () => {
      wanted = false;
      setPicture(null);
      opened?.close();
    };
  }, [work.id, facts]);
  return picture;
}

/** The edited picture of a work; null while there is none. */
export function useEditedPicture(edit: AttachedEdit | undefined): ImageBitmap | null {
  const [bitmap, setBitmap] = useState<ImageBitmap | null>(null);
  const name = edit?.picture;
  useEffect(() => {
    let wanted = true;
    let opened: ImageBitmap | null = null;
    const open = async (): Promise<void> => {
      const blob = name === undefined ? null : await classPicture('after', name);
      if (blob === null) return;
      opened = await createImageBitmap(blob);
      if (wanted) setBitmap(opened);
      else opened.close();
    };
    void open().catch(() => undefined);
    return () => {
      wanted = false;
      setBitmap(null);
      opened?.close();
    };
  }, [name]);
  return bitmap;
}
