import { useEffect, useState } from 'react';
import { smallAddressOf } from '../../state/class-files.ts';

/** The small picture of a work; the ground shows where it is not read yet. */
export function Small({ id, read }: { id: string; read: boolean }) {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    if (read) void smallAddressOf(id).then((it) => wanted && setAddress(it));
    return () => {
      wanted = false;
    };
  }, [id, read]);
  return address ? <img src={address} alt="" draggable={false} /> : <span className="no-picture" />;
}
