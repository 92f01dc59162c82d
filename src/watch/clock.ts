/** Time as the watch needs it; tests bring their own. */
export interface Clock {
  /** Milliseconds that only grow, from any start. */
  now(): number;
  /** Calls `run` once after so many milliseconds, unless it is cancelled by what comes back. */
  after(ms: number, run: () => void): () => void;
}

export const systemClock: Clock = {
  now: () => performance.now(),
  after(ms, run) {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  },
};
