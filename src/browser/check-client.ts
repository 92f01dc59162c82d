import type { CheckAnswer, CheckOrder, PracticeAnswer, PracticeOrder } from './messages.ts';

export interface Checker {
  check(order: Omit<CheckOrder, 'number'>): Promise<CheckAnswer>;
  practise(order: PracticeOrder): Promise<PracticeAnswer>;
}

type Answer = CheckAnswer | (PracticeAnswer & { readonly number: number });

/** Asks the worker; answers come back in whatever order they are ready. */
export function startChecker(): Checker {
  const worker = new Worker(new URL('./check-worker.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<number, (answer: Answer) => void>();
  let asked = 0;
  worker.onmessage = ({ data }: MessageEvent<Answer>) => {
    waiting.get(data.number)?.(data);
    waiting.delete(data.number);
  };
  worker.onerror = (event) => {
    const message =
      event.message || 'the part of this page that checks trials could not be loaded; load the page again';
    for (const [number, done] of waiting) done({ number, refused: 'check', message, failed: message });
    waiting.clear();
  };
  const ask = <Asked extends Answer>(order: object): Promise<Asked> =>
    new Promise((done) => {
      asked += 1;
      waiting.set(asked, done as (answer: Answer) => void);
      worker.postMessage({ ...order, number: asked });
    });
  return {
    check: (order) => ask<CheckAnswer>(order),
    practise: (order) => ask<PracticeAnswer & { number: number }>(order),
  };
}
