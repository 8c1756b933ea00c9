import { Command, CommanderError } from 'commander';
import { appCommand } from './commands/app.ts';
import { applyCommand } from './commands/apply.ts';
import { baselineCommand } from './commands/baseline.ts';
import { checkCommand } from './commands/check.ts';
import { classCommand } from './commands/class.ts';
import { compareCommand } from './commands/compare.ts';
import { guideCommand } from './commands/guide.ts';
import { handoverCommand } from './commands/handover.ts';
import { layersCommand } from './commands/layers.ts';
import { proposeCommand } from './commands/propose.ts';
import { watchCommand } from './commands/watch.ts';
import { workCommand } from './commands/work.ts';
import { EXIT, WrongUse } from './trouble.ts';
import { ADVICE } from './words.ts';

/** Runs one command line and returns its exit code. */
async function run(argv: readonly string[]): Promise<number> {
  let code: number = EXIT.done;
  const end = (result: number): void => {
    code = result;
  };
  const program = new Command('halflight')
    .description(
      'Reads a painted picture as its painter would with a rested eye, and says what keeps it from its mood.',
    )
    .helpCommand(false)
    // “class DIR” and “class merge” know the same options.
    .enablePositionalOptions()
    .showHelpAfterError('“halflight --help” lists the commands, “halflight COMMAND --help” explains one.')
    .addHelpText('after', `\nExample:\n  halflight check ferry.png\n\n${ADVICE}`);
  for (const make of [
    checkCommand,
    proposeCommand,
    applyCommand,
    guideCommand,
    handoverCommand,
    compareCommand,
    layersCommand,
    workCommand,
    classCommand,
    watchCommand,
    baselineCommand,
    appCommand,
  ]) {
    const command = make(end);
    for (const one of [command, ...command.commands]) one.copyInheritedSettings(program).exitOverride();
    program.addCommand(command);
  }
  program.exitOverride();
  try {
    await program.parseAsync(argv, { from: 'user' });
    return code;
  } catch (error) {
    return failed(error);
  }
}

function failed(error: unknown): number {
  // Help that was asked for ends with 0; everything else commander says is about wrong use.
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.wrongUse;
  if (error instanceof WrongUse) {
    console.error(error.message);
    return EXIT.wrongUse;
  }
  console.error(`Something in Halflight itself went wrong: ${messageOf(error)}`);
  console.error('Your pictures are as they were. Please tell its makers what you did.');
  if (process.env.NODE_DEBUG === 'halflight') console.error(error);
  return EXIT.unread;
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

// The reader of a pipe may leave early (`… | head`): that is no trouble.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(EXIT.done);
  throw error;
});

process.exitCode = await run(process.argv.slice(2));
