import type { ClassDocument } from '../../state/class-document.ts';
import { useClass } from '../../state/class-store.ts';
import { useSession } from '../../state/session.ts';
import { ClassComings, ClassDemoOffer } from './Comings.tsx';
import { AsList, ByFinding } from './Lists.tsx';
import { Plane, PointedLine } from './Plane.tsx';
import { planeOf, readEntries, sharedFindings } from './statistics.ts';
import { useClassView } from './view.ts';

/** Notes about several works are named so. */
export const SHARED = 'shared ';

/** The works of the class on the wall, as they are looked at now. */
export function ClassWall({ now }: { now: ClassDocument }) {
  const { readings, measures, takingIn } = useClass();
  const { shown, across, up } = useClassView();
  const { openNote, pointedNote } = useSession();
  if (now.works.length === 0 && takingIn === null) return <EmptyClass />;
  const entries = readEntries(now, readings);
  const shared = sharedFindings(entries);
  const about = [pointedNote, openNote].find((name) => name?.startsWith(SHARED));
  const group = shared.find(({ key }) => SHARED + key === about);
  const lit = group ? new Set(group.works.map(({ id }) => id)) : null;
  return (
    <>
      <header className="headline">
        <h1>{now.title}</h1>
        {now.assignment && <p>{now.assignment}</p>}
      </header>
      {shown === 'plane' ? (
        <Plane plane={planeOf(entries, measures, across, up)} entries={entries} now={now} lit={lit} />
      ) : shown === 'findings' ? (
        <ByFinding shared={shared} entries={entries} />
      ) : (
        <AsList now={now} readings={readings} />
      )}
      <PointedLine entries={entries} />
    </>
  );
}

function EmptyClass() {
  return (
    <div className="empty">
      <div className="empty-picture">
        <h1>Class</h1>
        <p className="lead">
          Hang the works of a class here: all are read against what was asked for, lie where their moods place
          them, and you write on each what its painter takes home.
        </p>
        <p>
          <ClassComings lead="Take" />. Works never leave this machine unless you give them away.
        </p>
        <ClassDemoOffer />
      </div>
    </div>
  );
}
