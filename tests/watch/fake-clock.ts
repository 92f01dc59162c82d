import type { Clock } from '../../src/watch/clock.ts';

/** Time that passes only when a test says so. */
export class FakeClock implements Clock {
  #now = 0;
  #timers: { readonly at: number; readonly run: () => void }[] = [];

  now(): number {
    return this.#now;
  }

  after(ms: number, run: () => void): () => void {
    const timer = { at: this.#now + ms, run };
    this.#timers.push(timer);
    return () => {
      this.#timers = this.#timers.filter((other) => other !== timer);
    };
  }

  get timers(): number {
    return this.#timers.length;
  }

  /** Lets so much time pass, timer by timer, and everything that was promised meanwhile settle. */
  async pass(ms: number): Promise<void> {
    const end = this.#now + ms;
    await settled();
    for (;;) {
      const next = this.#timers.filter(({ at }) => at <= end).sort((a, b) => a.at - b.at)[0];
      if (next === undefined) break;
      this.#timers = this.#timers.filter((timer) => timer !== next);
      this.#now = Math.max(this.#now, next.at);
      next.run();
      await settled();
    }
    this.#now = end;
  }
}

/** Promises of fake files are kept at once; a few turns of the loop are enough for chains of them. */
async function settled(): Promise<void> {
  for (let turn = 0; turn < 5; turn++) await new Promise((done) => setImmediate(done));
}
