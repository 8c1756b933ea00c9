import { canShare, copy, save, share, type Thing } from '../state/write.ts';

/** The ways out: save, copy, share. `of` names what is made, so that sharing need not make it again. */
export function Ways({ thing, of, what = '' }: { thing: Thing; of: string; what?: string }) {
  const copies = thing.makeForClipboard && 'clipboard' in navigator && 'ClipboardItem' in window;
  return (
    <>
      <button type="button" className="answer" onClick={() => void save(thing)}>
        {what ? `save ${what}` : 'save'}
      </button>
      {copies && (
        <button type="button" className="answer" onClick={() => void copy(thing)}>
          {what ? 'copy it' : 'copy'}
        </button>
      )}
      {canShare() && (
        <button type="button" className="answer" onClick={() => void share(thing, of)}>
          {what ? 'share it' : 'share'}
        </button>
      )}
    </>
  );
}
