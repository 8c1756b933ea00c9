import { finishTask, giveUpTask, isEnough, useTask } from './task.ts';

/** What is to be shown on the picture by hand, and the ways out of it. */
export function TaskLine() {
  const state = useTask();
  const { task } = state;
  if (task === null) return null;
  return (
    <div className="task-line" role="status">
      <p>{task.words}</p>
      <p className="answers">
        {task.kind === 'outline' && isEnough(state) && (
          <button type="button" className="answer" onClick={finishTask}>
            close the outline
          </button>
        )}
        <button type="button" className="answer" onClick={giveUpTask}>
          leave it
        </button>
      </p>
    </div>
  );
}
