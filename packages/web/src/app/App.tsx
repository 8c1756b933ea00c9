import { lazy, type RefObject, Suspense, useEffect, useRef } from 'react';
import { currentVersion, isLayered, type Work } from '../document/work.ts';
import { Frame } from '../parts/Frame.tsx';
import { Troubles } from '../parts/Troubles.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import type { OpenedPicture } from '../picture/desk.ts';
import { Shelf } from '../screens/shelf/Shelf.tsx';
import { stopOpening } from '../state/open.ts';
import { shownWork, useSession } from '../state/session.ts';
import { Help } from './Help.tsx';
import { isWorkRoute, type WorkScreen as WorkScreenName } from './route.ts';
import { useHands } from './useHands.ts';

/** The notes come while the first picture is read. */
const loadCheck = () => import('../screens/check/Check.tsx');
const Check = lazy(() => loadCheck().then((module) => ({ default: module.Check })));
/** Editing comes when it is asked for: the first load is for looking. */
const IntentScreen = lazy(() =>
  import('../screens/intent/IntentScreen.tsx').then((module) => ({ default: module.IntentScreen })),
);
const BaselineScreen = lazy(() => import('../screens/baseline/BaselineScreen.tsx'));
const ClassScreen = lazy(() => import('../screens/class/ClassScreen.tsx'));
const Rework = lazy(() => import('../screens/rework/Rework.tsx'));
const HandoverScreen = lazy(() => import('../screens/handover/HandoverScreen.tsx'));
const ProgressScreen = lazy(() => import('../screens/progress/ProgressScreen.tsx'));
const ThinoutScreen = lazy(() => import('../screens/thinout/ThinoutScreen.tsx'));
const StandBack = lazy(() => import('../screens/standback/StandBack.tsx'));

export function App() {
  const { route, picture, opening, said, ...session } = useSession();
  const work = shownWork(session);
  useHands();
  const title = work?.title;
  useEffect(() => {
    document.title = title ? `${title} · Halflight` : 'Halflight';
  }, [title]);

  // What layers are worth is read after the notes stand, and adds to them.
  const layered = work && picture && isLayered(currentVersion(work)) ? picture : null;
  useEffect(() => {
    if (layered)
      void import('../screens/thinout/ThinoutScreen.tsx').then(({ weighOpenWork }) => weighOpenWork());
  }, [layered]);

  const comes = opening !== null;
  useEffect(() => {
    if (comes) void loadCheck();
  }, [comes]);

  const shown = opening ? 'opening' : route.screen;
  const before = useRef(shown);

  return (
    <>
      <Suspense key={shown} fallback={<Frame wall={null} margin={null} />}>
        {opening ? (
          <Frame
            wall={
              <div className="opening">
                <Waiting
                  key={opening.name}
                  what={
                    opening.count ? `Opening ${opening.name}, ${opening.count}` : `Opening ${opening.name}`
                  }
                  progress={opening.progress}
                  onStop={stopOpening}
                />
              </div>
            }
            margin={<Troubles at={['opening', 'keeping']} />}
          />
        ) : route.screen === 'shelf' ? (
          <Shelf />
        ) : route.screen === 'baseline' ? (
          <BaselineScreen />
        ) : route.screen === 'class' ? (
          <ClassScreen of={route.of} />
        ) : route.screen === 'layers' ? (
          <ThinoutScreen work={null} picture={null} />
        ) : work && picture && isWorkRoute(route) && work.id === route.work ? (
          <WorkScreen screen={route.screen} work={work} picture={picture} />
        ) : (
          <Frame wall={null} margin={<Troubles at={['opening', 'keeping']} />} />
        )}
        <Arrival shown={shown} before={before} />
      </Suspense>
      <Help />
      <p className="unseen" role="status">
        {said}
      </p>
    </>
  );
}

/** Who comes to a screen by keyboard goes on from its heading, not from the top of the page, once it is there. */
function Arrival({ shown, before }: { shown: string; before: RefObject<string> }) {
  useEffect(() => {
    if (before.current !== shown) document.querySelector<HTMLElement>('[data-heading]')?.focus();
    before.current = shown;
  }, [shown, before]);
  return null;
}

function WorkScreen({ screen, ...shown }: { screen: WorkScreenName; work: Work; picture: OpenedPicture }) {
  switch (screen) {
    case 'intent':
      return <IntentScreen {...shown} />;
    case 'rework':
      return <Rework {...shown} />;
    case 'standback':
      return <StandBack {...shown} />;
    case 'progress':
      return <ProgressScreen {...shown} />;
    case 'thinout':
      return <ThinoutScreen {...shown} />;
    case 'handover':
      return <HandoverScreen {...shown} />;
    case 'check':
      return <Check {...shown} />;
  }
}
