import './class.css';
import { useEffect } from 'react';
import { Frame } from '../../parts/Frame.tsx';
import { Troubles } from '../../parts/Troubles.tsx';
import { openClass } from '../../state/class.ts';
import { isRead } from '../../state/class-reading.ts';
import { useClass } from '../../state/class-store.ts';
import { findClassDemo } from '../../state/class-taking.ts';
import { trouble } from '../../state/session.ts';
import { ClassIntent } from './ClassIntent.tsx';
import { ClassWhole } from './ClassWhole.tsx';
import { CritiqueScreen } from './critique/CritiqueScreen.tsx';
import { useClassHands } from './useClassHands.ts';

/** Name in the address of the intent of the assignment; works are named by their hash. */
export const INTENT = 'intent';

/** Works that answer one assignment: where they stand, what is said about each, and the pages that are given back. */
export default function ClassScreen({ of }: { of: string | null }) {
  const { history, readings } = useClass();
  useClassHands();
  useEffect(() => {
    void findClassDemo();
    openClass().catch(() =>
      trouble(
        'opening',
        'The class can’t be brought from the browser’s store. Close other windows of this app, then load the page again.',
      ),
    );
  }, []);
  if (history === null) return <Frame wall={null} margin={<Troubles at={['opening']} />} />;
  const now = history.present;
  if (of === INTENT) return <ClassIntent now={now} />;
  const work = now.works.find(({ id }) => id === of);
  const read = work && readings[work.id];
  if (work && isRead(read)) return <CritiqueScreen key={work.id} now={now} work={work} read={read} />;
  return <ClassWhole now={now} />;
}
