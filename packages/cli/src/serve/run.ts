import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { EXIT, WrongUse } from '../trouble.ts';
import { appFolder } from './places.ts';
import { serve } from './server.ts';

/** Serves the built app until a signal ends it; gives the exit code. */
export async function app(usual: number, port: number | undefined): Promise<number> {
  const folder = appFolder();
  if (!folder)
    throw new WrongUse('The app is not built yet. Run “npm run build” in the folder of Halflight.');
  const headers = JSON.parse(await readFile(join(folder, 'headers.json'), 'utf8'));
  const { server, address } = await start(folder, headers, usual, port);
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
  usual: number,
  port: number | undefined,
): ReturnType<typeof serve> {
  try {
    return await serve(folder, headers, port ?? usual);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EACCES') throw new WrongUse(`Port ${port} is not allowed here. Name one above 1023.`);
    if (code !== 'EADDRINUSE') throw error;
    if (port !== undefined)
      throw new WrongUse(`Port ${port} is taken. Name another one, or leave --port away.`);
    process.stderr.write(
      `Port ${usual} is taken, perhaps by another Halflight: works that are kept there don’t show here.\n`,
    );
    return serve(folder, headers, 0);
  }
}
