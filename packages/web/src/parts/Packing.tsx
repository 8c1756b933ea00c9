import { useSession } from '../state/session.ts';

/** How far a dossier or the shelf is written. */
export function Packing() {
  const packing = useSession((session) => session.packing);
  if (packing === null) return null;
  return (
    <p className="quiet" role="status">
      “{packing.name}” is being written: {Math.round(100 * packing.share)} %.
    </p>
  );
}
