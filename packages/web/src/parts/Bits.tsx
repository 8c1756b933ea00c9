import { Chosen } from './Chosen.tsx';

/** How many bits each channel of a file has, where its format leaves the choice. */
export function Bits({ depth, onChoose }: { depth: 8 | 16; onChoose: (depth: 8 | 16) => void }) {
  return (
    <Chosen
      label="Bits of each channel"
      value={String(depth)}
      options={[
        ['8', '8 bits'],
        ['16', '16 bits'],
      ]}
      onChoose={(value) => onChoose(value === '16' ? 16 : 8)}
    />
  );
}
