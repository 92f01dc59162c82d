import type { CheckAnswer, CheckOrder } from './messages.ts';

/** Asks the worker; answers come back in whatever order they are ready. */
export function startChecker(): (order: Omit<CheckOrder, 'number'>) => Promise<CheckAnswer> {
  const worker = new Worker(new URL('./check-worker.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<number, (answer: CheckAnswer) => void>();
  let asked = 0;
  worker.onmessage = ({ data }: MessageEvent<CheckAnswer>) => {
    waiting.get(data.number)?.(data);
    waiting.delete(data.number);
  };
  worker.onerror = (event) => {
    const message =
      event.message || 'the part of this page that checks trials could not be loaded; load the page again';
    for (const [number, done] of waiting) done({ number, refused: 'check', message });
    waiting.clear();
  };
  return (order) =>
    new Promise((done) => {
      asked += 1;
      waiting.set(asked, done);
      worker.postMessage({ ...order, number: asked });
    });
}
