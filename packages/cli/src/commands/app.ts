import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Command } from 'commander';
import { portNumber } from '../options.ts';
import { appFolder } from '../serve/places.ts';
import { serve } from '../serve/server.ts';
import { EXIT, WrongUse } from '../trouble.ts';

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
    .action(async ({ port }: { port?: number }) => end(await app(port)));
}

async function app(port: number | undefined): Promise<number> {
  const folder = appFolder();
  if (!folder)
    throw new WrongUse('The app is not built yet. Run “npm run build” in the folder of Halflight.');
  const headers = JSON.parse(await readFile(join(folder, 'headers.json'), 'utf8'));
  const { server, address } = await start(folder, headers, port);
  process.stdout.write(`Halflight is at ${address}\n`);
  process.stderr.write('Ctrl+C ends it.\n');
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, resolve);
  });
  server.close();
  server.closeAllConnections();
  return EXIT.done;
}

async function start(
  folder: string,
  headers: Record<string, string>,
  port: number | undefined,
): ReturnType<typeof serve> {
  try {
    return await serve(folder, headers, port ?? USUAL_PORT);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EACCES') throw new WrongUse(`Port ${port} is not allowed here. Name one above 1023.`);
    if (code !== 'EADDRINUSE') throw error;
    if (port !== undefined)
      throw new WrongUse(`Port ${port} is taken. Name another one, or leave --port away.`);
    process.stderr.write(
      `Port ${USUAL_PORT} is taken, perhaps by another Halflight: works that are kept there don’t show here.\n`,
    );
    return serve(folder, headers, 0);
  }
}
