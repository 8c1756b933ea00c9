import { CAUTIONS } from '../app/Help.tsx';
import { changeSettings, useSettings } from '../state/settings.ts';

/** What must be said once, where it matters: above the first notes. */
export function Cautions() {
  const cautioned = useSettings((settings) => settings.cautioned);
  if (cautioned) return null;
  return (
    <div className="cautions">
      {CAUTIONS.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <button type="button" className="clause" onClick={() => changeSettings({ cautioned: true })}>
        Understood
      </button>
    </div>
  );
}
