import type { Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { PictureWall } from '../../parts/PictureWall.tsx';
import { WayAround } from '../../parts/WayAround.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';

export function IntentScreen({ work, picture }: { work: Work; picture: OpenedPicture }) {
  return (
    <Frame
      wall={<PictureWall work={work} picture={picture} findings={[]} shown={null} />}
      margin={<WayAround />}
    />
  );
}
