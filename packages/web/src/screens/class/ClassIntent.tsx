import { useEffect } from 'react';
import { go } from '../../app/route.ts';
import { Frame } from '../../parts/Frame.tsx';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { performOnClass } from '../../state/class.ts';
import type { ClassDocument } from '../../state/class-document.ts';
import { presentClass } from '../../state/class-store.ts';
import { decideFor } from '../../state/decide.ts';
import { set } from '../../state/session.ts';
import { FeelPart } from '../intent/FeelPart.tsx';
import { HuePart } from '../intent/HuePart.tsx';
import { LightPart } from '../intent/LightPart.tsx';
import { MoodPart } from '../intent/MoodPart.tsx';
import { ClassReading } from './ClassReading.tsx';
import { ClassWall } from './ClassWall.tsx';

/** What the assignment decides: every work is read against it. */
export function ClassIntent({ now }: { now: ClassDocument }) {
  useEffect(() => {
    decideFor({
      intent: () => presentClass().intent,
      decide: (part, intent) => performOnClass({ kind: 'decide', words: `deciding the ${part}`, intent }),
    });
    set({ openNote: 'intent mood' });
    return () => {
      decideFor(null);
      set({ openNote: null });
    };
  }, []);
  const { intent } = now;
  return (
    <Frame
      wall={<ClassWall now={now} />}
      margin={
        <>
          <NotesPart title="Intent of the assignment">
            <p className="quiet">
              What was asked of everyone. What is left open is not judged; each change reads the class again.
            </p>
            <ClassReading />
            <ul className="notes">
              <MoodPart mood={intent.mood} seen={null} />
              <LightPart light={intent.light} seen={null} taps={false} />
              <HuePart hue={intent.hue} seen={null} />
              <FeelPart feel={intent.feel} />
            </ul>
          </NotesPart>
          <section className="rest-part" aria-label="The way around">
            <p className="way">
              <button type="button" className="clause" onClick={() => go({ screen: 'class', of: null })}>
                Back to the class
              </button>
            </p>
          </section>
        </>
      }
    />
  );
}
