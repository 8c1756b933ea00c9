import { useRef } from 'react';
import { changeSettings, useSettings } from '../state/settings.ts';
import { KEYS } from './keys.ts';

/** Readings are advice, said once at first and here on demand. */
export const CAUTIONS = [
  'Readings are advice to you, never a verdict: your eye decides.',
  'Colour can only be judged on a calibrated display, with a neutral surround and without strong light on it.',
  'Pictures never leave this machine.',
] as const;

export function showHelp(): void {
  const dialog = document.querySelector<HTMLDialogElement>('#help');
  if (dialog && !dialog.open) dialog.showModal();
}

/** The list of keys, and what to keep in mind. */
export function Help() {
  const ref = useRef<HTMLDialogElement>(null);
  const singleKeys = useSettings((settings) => settings.singleKeys);
  return (
    <dialog ref={ref} id="help" className="dialog" aria-labelledby="help-title">
      <h2 id="help-title">Keys and cautions</h2>
      <dl className="keys">
        {Object.values(KEYS).map(({ keys, words }) => (
          <div key={words}>
            <dt>
              {keys.map((key) => (
                <kbd key={key}>{key}</kbd>
              ))}
            </dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <label className="choice">
        <input
          type="checkbox"
          checked={singleKeys}
          onChange={(event) => changeSettings({ singleKeys: event.target.checked })}
        />
        Keys without Ctrl do something
      </label>
      {CAUTIONS.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <form method="dialog">
        <button type="submit" className="answer">
          Close
        </button>
      </form>
    </dialog>
  );
}
