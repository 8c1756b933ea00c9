import { useEffect, useId, useRef, useState } from 'react';

/** Words are kept after such a pause of writing, in milliseconds. */
const PAUSE = 900;

/** A field whose words are kept when it is left, after a pause, and when it goes away. */
export function KeptText({
  label,
  value,
  onKeep,
  rows = 1,
  placeholder,
  focused = false,
}: {
  label: string;
  value: string;
  onKeep: (text: string) => void;
  /** One: a line, on which Enter keeps; more: a text. */
  rows?: number;
  placeholder?: string;
  focused?: boolean;
}) {
  const [text, setText] = useState(value);
  const [known, setKnown] = useState(value);
  // Undo, or another hand, changed it meanwhile.
  if (known !== value) {
    setKnown(value);
    setText(value);
  }
  const latest = useRef({ text, value, onKeep });
  latest.current = { text, value, onKeep };
  const keep = (): void => {
    const now = latest.current;
    if (now.text.trim() !== now.value) now.onKeep(now.text.trim());
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is written is read when the pause is over
  useEffect(() => {
    const timer = setTimeout(keep, PAUSE);
    return () => clearTimeout(timer);
  }, [text]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when it goes away
  useEffect(() => keep, []);
  const id = useId();
  const shared = {
    id,
    value: text,
    placeholder,
    autoFocus: focused,
    onChange: (event: { target: { value: string } }) => setText(event.target.value),
    onBlur: keep,
  };
  return (
    <div className="kept-text">
      <label htmlFor={id}>{label}</label>
      {rows > 1 ? (
        <textarea rows={rows} {...shared} />
      ) : (
        <input
          {...shared}
          onKeyDown={(event) => {
            if (event.key === 'Enter') keep();
          }}
        />
      )}
    </div>
  );
}
