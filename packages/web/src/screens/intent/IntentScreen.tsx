import { useEffect, useState } from 'react';
import type { Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { Headline } from '../../parts/Headline.tsx';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { PictureWall } from '../../parts/PictureWall.tsx';
import { giveUpTask } from '../../parts/stage/task.ts';
import { WayAround } from '../../parts/WayAround.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';
import { set, useSession } from '../../state/session.ts';
import { DeliveryPart } from './DeliveryPart.tsx';
import { FeelPart } from './FeelPart.tsx';
import { HuePart } from './HuePart.tsx';
import { LightPart } from './LightPart.tsx';
import { LightSheet } from './LightSheet.tsx';
import { MoodPart } from './MoodPart.tsx';

/** What was decided for the work, part by part; each may be left open. */
export function IntentScreen({ work, picture }: { work: Work; picture: OpenedPicture }) {
  const seen = useSession((session) => session.seen);
  useEffect(() => {
    set({ openNote: 'intent mood' });
    return giveUpTask;
  }, []);
  const [sheet, setSheet] = useState<'decide' | 'turn' | null>(null);
  const { intent } = work;
  return (
    <Frame
      wall={
        sheet ? (
          <>
            <Headline work={work} />
            <LightSheet work={work} turn={sheet === 'turn'} onClose={() => setSheet(null)} />
          </>
        ) : (
          <PictureWall work={work} picture={picture} findings={[]} shown={null} />
        )
      }
      margin={
        <>
          <NotesPart title="Intent">
            <p className="quiet">Nothing need be decided. What is left open is not judged.</p>
            <ul className="notes">
              <MoodPart mood={intent.mood} seen={seen} />
              <LightPart
                light={intent.light}
                seen={seen}
                onSheet={(turn) => setSheet(turn ? 'turn' : 'decide')}
              />
              <HuePart hue={intent.hue} seen={seen} />
              <DeliveryPart delivery={intent.delivery} />
              <FeelPart feel={intent.feel} />
            </ul>
          </NotesPart>
          <section className="rest-part" aria-label="The way around">
            <WayAround />
          </section>
        </>
      }
    />
  );
}
