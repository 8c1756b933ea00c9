/** What a worker is doing for the page, so that all of it can be given up at once: a worker that ends answers nobody. */
export interface Jobs {
  /** Whether nobody waits. */
  readonly idle: boolean;
  /** Waits for a job, and rejects with what it is given up for. */
  run<T>(job: () => Promise<T>): Promise<T>;
  giveUp(reason: Error): void;
}

export function openJobs(): Jobs {
  const aborts = new Set<(reason: Error) => void>();
  return {
    get idle() {
      return aborts.size === 0;
    },
    async run(job) {
      let mine: (reason: Error) => void = () => undefined;
      const stopped = new Promise<never>((_, reject) => {
        mine = reject;
        aborts.add(reject);
      });
      try {
        return await Promise.race([job(), stopped]);
      } finally {
        aborts.delete(mine);
      }
    },
    giveUp(reason) {
      for (const abort of aborts) abort(reason);
      aborts.clear();
    },
  };
}
