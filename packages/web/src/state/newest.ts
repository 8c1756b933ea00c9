/**
 * Runs a job when asked; asked again while it runs, it runs once more with what is wanted then. Whatever was
 * wanted in between is left out.
 */
export function newest(job: () => Promise<void>): () => void {
  let running = false;
  let again = false;
  const run = async (): Promise<void> => {
    running = true;
    try {
      do {
        again = false;
        await job();
      } while (again);
    } finally {
      running = false;
    }
  };
  return () => {
    if (running) again = true;
    else void run();
  };
}
