import { Command } from 'commander';
import { portNumber } from '../options.ts';

/** The browser keeps works by address, so the usual one stays the same from day to day. */
const USUAL_PORT = 4160;

/** `app`: serves the built app on this machine until it is ended. */
export function appCommand(end: (code: number) => void): Command {
  return new Command('app')
    .description('Serve the app on this machine only, and print its address.')
    .option('--port <number>', `port to serve at; 0 takes any free one (default: ${USUAL_PORT})`, portNumber)
    .addHelpText(
      'after',
      '\nExample:\n  halflight app --port 8080\n\nCtrl+C ends it. Works are kept by the browser, for each port apart.',
    )
    .action(async ({ port }: { port?: number }) => {
      const { app } = await import('../serve/run.ts');
      end(await app(USUAL_PORT, port));
    });
}
