import { ManyComings } from '../../parts/many/ManyComings.tsx';
import { useClass } from '../../state/class-store.ts';
import { takeDemoClass, takeIntoClass } from '../../state/class-taking.ts';

/** The ways works come into the class, as one sentence. */
export function ClassComings({ lead }: { lead: string }) {
  return (
    <ManyComings
      folder={`${lead} a folder`}
      files="many files"
      labels={{ folder: 'Folder with the works of the class', files: 'Works of the class' }}
      onTake={(chosen) => void takeIntoClass(chosen)}
    />
  );
}

/** The class that was painted for a first try. */
export function ClassDemoOffer() {
  const { demo, takingIn } = useClass();
  if (demo.length === 0) return null;
  return (
    <p>
      Or{' '}
      <button
        type="button"
        className="clause"
        disabled={takingIn !== null}
        onClick={() => void takeDemoClass()}
      >
        take the class of {demo.length === 12 ? 'twelve' : demo.length}
      </button>{' '}
      that was painted for a first try: invented works by invented people.
    </p>
  );
}
