import { startPictureClient } from '../picture/client.ts';
import { startKeeper } from '../storage/client.ts';

/** The two workers behind the page: one owns the open picture, the other the store. */
export const pictures = startPictureClient();
export const keeper = startKeeper();
