import type { Progress } from '../../picture/desk.ts';

/** What runs, and how far it is. */
export interface Line {
  readonly what: string;
  readonly progress: Progress;
}

/**
 * The line that tells what runs. It belongs to the work that began last: reports of earlier work, and those that come
 * after the end, change nothing. (A worker's reports and its answer travel apart: the answer may be here first.)
 */
export function lineOfWork(show: (line: Line | null) => void) {
  let turn = 0;
  const clear = (): void => {
    turn++;
    show(null);
  };
  return {
    /** Does something and tells how far it is until it is done, fails, is cleared or is followed by other work. */
    async during<T>(
      what: string,
      progress: Progress,
      job: (tell: (progress: Progress) => void) => Promise<T>,
    ): Promise<T> {
      const mine = ++turn;
      show({ what, progress });
      try {
        return await job((now) => {
          if (mine === turn) show({ what, progress: now });
        });
      } finally {
        if (mine === turn) clear();
      }
    },
    /** Whatever runs is told of no more. */
    clear,
  };
}
