import { openDemo } from '../state/demo.ts';
import { useSession } from '../state/session.ts';

/** The pictures that were painted for a first try, where they are served. */
export function DemoOffer() {
  const demo = useSession((session) => session.demo);
  if (demo.length === 0) return null;
  return (
    <p>
      Or look at “{demo[0].title}”, painted for a first try, in version{' '}
      {demo.map((picture, index) => (
        <span key={picture.file}>
          {index > 0 && (index === demo.length - 1 ? ' or ' : ', ')}
          <button
            type="button"
            className="clause short"
            aria-label={`Open ${picture.title}, version ${picture.version}`}
            onClick={() => void openDemo(picture)}
          >
            {picture.version}
          </button>
        </span>
      ))}
      .
    </p>
  );
}
