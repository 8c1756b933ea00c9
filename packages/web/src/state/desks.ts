import { startPictureClient } from '../picture/client.ts';
import { startKeeper } from '../storage/client.ts';
import { trouble } from './session.ts';

/** The two workers behind the page: one owns the open picture, the other the store. */
export const pictures = startPictureClient();
export const keeper = startKeeper(() => {
  trouble(
    'keeping',
    'The part that keeps works stopped unexpectedly. What was kept is safe; reload the page before you go on.',
  );
});
