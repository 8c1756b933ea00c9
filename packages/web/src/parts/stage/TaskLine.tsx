import { finishTask, giveUpTask, isEnough, isFree, useTask } from './task.ts';

/** What is to be shown on the picture by hand, and the ways out of it. */
export function TaskLine() {
  const state = useTask();
  const { task } = state;
  if (task === null) return null;
  return (
    <div className="task-line" role="status">
      <p>{task.words}</p>
      <p className="answers">
        {isFree(task) && isEnough(state) && (
          <button type="button" className="answer" onClick={finishTask}>
            {task.kind === 'outline' ? 'close the outline' : 'end the stroke'}
          </button>
        )}
        <button type="button" className="answer" onClick={giveUpTask}>
          leave it
        </button>
      </p>
    </div>
  );
}
