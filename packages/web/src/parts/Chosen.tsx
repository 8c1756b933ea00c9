/** A choice inside a sentence. */
export function Chosen({
  label,
  value,
  options,
  onChoose,
}: {
  label: string;
  value: string;
  options: readonly (readonly [string, string])[];
  onChoose: (value: string) => void;
}) {
  return (
    <select
      className="clause"
      aria-label={label}
      value={value}
      onChange={(event) => onChoose(event.target.value)}
    >
      {options.map(([name, words]) => (
        <option key={name} value={name}>
          {words}
        </option>
      ))}
    </select>
  );
}
