import { describe, expect, it } from 'vitest';
import { EventStream, type Listener } from '../../src/watch/event-stream.ts';
import { FakeClock } from './fake-clock.ts';

class FakeListener implements Listener {
  written = '';
  state = 'open';
  writableLength = 0;
  #onClose = () => {};

  write(text: string) {
    this.written += text;
  }
  end() {
    this.state = 'ended';
  }
  destroy() {
    this.state = 'destroyed';
  }
  on(_event: 'close', onClose: () => void) {
    this.#onClose = onClose;
  }
  leave() {
    this.#onClose();
  }
}

function listenerOf(stream: EventStream) {
  const listener = new FakeListener();
  stream.add(listener);
  return listener;
}

describe('the stream of events', () => {
  it('tells a page that comes where things stand, and every page what changes', () => {
    const stream = new EventStream(new FakeClock(), { revision: 0 });
    const first = listenerOf(stream);
    stream.send({ revision: 1 });
    const second = listenerOf(stream);
    expect(first.written).toBe(
      'retry: 1000\n\nevent: state\ndata: {"revision":0}\n\nevent: state\ndata: {"revision":1}\n\n',
    );
    expect(second.written).toBe('retry: 1000\n\nevent: state\ndata: {"revision":1}\n\n');
  });

  it('beats, so that a page knows that it is not cut off, as long as anybody listens', async () => {
    const clock = new FakeClock();
    const stream = new EventStream(clock, {});
    const listener = listenerOf(stream);
    listener.written = '';
    await clock.pass(8000);
    expect(listener.written).toBe('event: beat\ndata: {}\n\n'.repeat(2));
    listener.leave();
    await clock.pass(8000);
    expect(clock.timers).toBe(0);
    expect(listenerOf(stream).state).toBe('open');
    expect(clock.timers).toBe(1);
  });

  it('lets a page go that does not fetch what it is sent', () => {
    const stream = new EventStream(new FakeClock(), {});
    const [slow, quick] = [listenerOf(stream), listenerOf(stream)];
    slow.writableLength = 100_000;
    stream.send({ revision: 1 });
    expect([slow.state, quick.state]).toEqual(['destroyed', 'open']);
    expect(quick.written).toContain('"revision":1');
  });

  it('has room for 32 pages', () => {
    const stream = new EventStream(new FakeClock(), {});
    const listeners = Array.from({ length: 32 }, () => listenerOf(stream));
    expect(stream.hasRoom).toBe(false);
    listeners[0]!.leave();
    expect(stream.hasRoom).toBe(true);
  });

  it('ends with every page when it is closed', () => {
    const clock = new FakeClock();
    const stream = new EventStream(clock, {});
    const listener = listenerOf(stream);
    stream.close();
    expect([listener.state, clock.timers]).toEqual(['ended', 0]);
  });
});
