import { clearTroubles, type Trouble, useSession } from '../state/session.ts';

/** What went wrong here, in sentences, until read. */
export function Troubles({ at }: { at: readonly Trouble['at'][] }) {
  const troubles = useSession((session) => session.troubles).filter((trouble) => at.includes(trouble.at));
  if (troubles.length === 0) return null;
  return (
    <div className="troubles" role="alert">
      {troubles.map(({ text }) => (
        <p key={text}>{text}</p>
      ))}
      <button type="button" className="clause" onClick={() => clearTroubles(at)}>
        I have read it
      </button>
    </div>
  );
}
