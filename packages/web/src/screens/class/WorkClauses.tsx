import { Fragment } from 'react';
import { go } from '../../app/route.ts';
import type { ClassWork } from '../../state/class-document.ts';
import { calledOf } from './words.ts';

/** Works by their names, each leading to its critique. */
export function WorkClauses({ works }: { works: readonly ClassWork[] }) {
  return works.map((work, index) => (
    <Fragment key={work.id}>
      {index > 0 && (index === works.length - 1 ? ' and ' : ', ')}
      <button type="button" className="clause" onClick={() => go({ screen: 'class', of: work.id })}>
        {calledOf(work)}
      </button>
    </Fragment>
  ));
}
