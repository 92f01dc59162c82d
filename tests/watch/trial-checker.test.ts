import { describe, expect, it } from 'vitest';
import { emptySession } from '../../src/core/session/session.ts';
import type { CheckedOrder, CheckOrder } from '../../src/watch/check-orders.ts';
import { type CheckThread, TrialChecker } from '../../src/watch/trial-checker.ts';
import { buildReport } from '../core/report/build-report.ts';
import { wands22 } from '../support/shipped-marker-sets.ts';
import { FakeClock } from './fake-clock.ts';

/** A thread that does what the test says and remembers what it was asked. */
class FakeThread implements CheckThread {
  readonly orders: CheckOrder[] = [];
  terminated = false;
  readonly #listeners = new Map<string, (value: never) => void>();

  postMessage(order: CheckOrder) {
    this.orders.push(order);
  }
  on(event: string, listener: (value: never) => void) {
    this.#listeners.set(event, listener);
  }
  async terminate() {
    this.terminated = true;
  }
  emit(event: 'message' | 'error' | 'exit', value?: unknown) {
    this.#listeners.get(event)!(value as never);
  }
  answer() {
    const checked: CheckedOrder = { id: this.orders.at(-1)!.id, report: buildReport() };
    this.emit('message', checked);
  }
}

function checker() {
  const clock = new FakeClock();
  const threads: FakeThread[] = [];
  const start = () => {
    threads.push(new FakeThread());
    return threads.at(-1)!;
  };
  return {
    clock,
    threads,
    checker: new TrialChecker({ markerSet: wands22, session: emptySession, norms: null }, start, clock),
  };
}

describe('the checker', () => {
  it('hands its thread one trial after the other', async () => {
    const { threads, checker: one } = checker();
    const first = one.check('1.c3d');
    const second = one.check('2.c3d');
    expect(threads[0]!.orders.map(({ path }) => path)).toEqual(['1.c3d']);
    expect(one.busyWith).toBe(2);
    threads[0]!.answer();
    expect((await first).verdict).toBe('ready');
    expect(threads[0]!.orders.map(({ path }) => path)).toEqual(['1.c3d', '2.c3d']);
    threads[0]!.answer();
    await second;
    expect([threads.length, one.busyWith]).toEqual([1, 0]);
  });

  it.each([
    ['falls', (thread: FakeThread) => thread.emit('error', new Error('out of memory')), 'out of memory'],
    ['ends', (thread: FakeThread) => thread.emit('exit'), 'its thread ended'],
  ])('says so when its thread %s, and goes on with a new one', async (_, fall, says) => {
    const { threads, checker: one } = checker();
    const first = one.check('1.c3d');
    const second = one.check('2.c3d');
    fall(threads[0]!);
    const report = await first;
    expect(report.verdict).toBe('not-assessable');
    expect(report.problems.map(({ code, message }) => [code, message])).toEqual([
      ['file-unreadable', `The check of this trial stopped at a fault of the program: ${says}.`],
    ]);
    threads[1]!.answer();
    expect((await second).verdict).toBe('ready');
    expect(threads[0]!.terminated).toBe(true);
  });

  it('gives up a trial that takes a minute', async () => {
    const { clock, threads, checker: one } = checker();
    const first = one.check('1.c3d');
    await clock.pass(60_000);
    expect((await first).problems[0]!.message).toContain('it took longer than 60 s');
    expect(threads[0]!.terminated).toBe(true);
    // What it says too late is not taken for the next trial.
    const second = one.check('2.c3d');
    threads[0]!.answer();
    threads[1]!.answer();
    expect((await second).verdict).toBe('ready');
  });

  it('starts nothing after it was closed', async () => {
    const { clock, threads, checker: one } = checker();
    void one.check('1.c3d');
    await one.close();
    void one.check('2.c3d');
    expect([threads.length, threads[0]!.terminated, clock.timers]).toEqual([1, true, 0]);
  });
});
