import type { Finding } from '@halflight/engine';
import type { ReactNode } from 'react';
import type { Work } from '../document/work.ts';
import type { OpenedPicture } from '../picture/desk.ts';
import { Headline } from './Headline.tsx';
import { Stage, zoomStage } from './stage/Stage.tsx';
import { useStage } from './stage/stage-store.ts';
import { TaskLine } from './stage/TaskLine.tsx';
import { wholeView } from './stage/view.ts';

/** The wall: headline, picture, and the words that bring it closer. */
export function PictureWall({
  work,
  picture,
  findings,
  shown,
}: {
  work: Work;
  picture: OpenedPicture;
  findings: readonly Finding[];
  shown: Finding | null;
}) {
  return (
    <>
      <Headline work={work} />
      <div className="stage-place">
        <Stage picture={picture} findings={findings} shown={shown} />
        <TaskLine />
      </div>
      <Nearness picture={picture} />
    </>
  );
}

/** What the picture is, how near it is, and the words that bring it closer. */
export function Nearness({ picture, children }: { picture: OpenedPicture; children?: ReactNode }) {
  const { view, box } = useStage();
  const { width, height, depth, profile } = picture.facts;
  const whole = view.scale <= wholeView(picture.facts, box).scale * 1.001;
  const percent = Math.round(view.scale * window.devicePixelRatio * 100);
  return (
    <footer className="nearness">
      <p>
        {width} × {height}, {depth} bit, {profile}
      </p>
      {children}
      <p>
        {percent} %{' '}
        <button type="button" className="clause" onClick={() => zoomStage(picture, 'closer')}>
          closer
        </button>{' '}
        <button
          type="button"
          className="clause"
          disabled={whole}
          onClick={() => zoomStage(picture, 'farther')}
        >
          farther
        </button>{' '}
        <button type="button" className="clause" disabled={whole} onClick={() => zoomStage(picture, 'whole')}>
          whole
        </button>
      </p>
    </footer>
  );
}
