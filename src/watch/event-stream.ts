import type { Clock } from './clock.ts';

/** The part of an answer that is used; a response of node:http fits. */
export interface Listener {
  write(text: string): unknown;
  end(): unknown;
  destroy(): unknown;
  readonly writableLength: number;
  on(event: 'close', onClose: () => void): unknown;
}

/** A page that hears nothing for so long takes itself for cut off (browser/live-page.ts), with room for two. */
const beatMs = 4000;
/** Far more than one assessor's screens. */
const mostListeners = 32;
/** A listener that does not fetch what it was sent is let go; it comes back by itself. */
const mostUnsentBytes = 64 * 1024;

/** Pushes small messages to pages as server-sent events (HTML standard, "Server-sent events"). */
export class EventStream {
  readonly #clock: Clock;
  readonly #listeners = new Set<Listener>();
  #last: string;
  #cancel: (() => void) | null = null;

  /** @param first what a page hears when it comes, until something else is sent */
  constructor(clock: Clock, first: unknown) {
    this.#clock = clock;
    this.#last = asEvent(first);
  }

  get hasRoom(): boolean {
    return this.#listeners.size < mostListeners;
  }

  add(listener: Listener): void {
    this.#listeners.add(listener);
    listener.on('close', () => this.#remove(listener));
    listener.write(`retry: 1000\n\n${this.#last}`);
    if (this.#cancel === null) this.#beat();
  }

  /** @param data goes out as JSON on one line */
  send(data: unknown): void {
    this.#last = asEvent(data);
    this.#write(this.#last);
  }

  close(): void {
    this.#cancel?.();
    for (const listener of this.#listeners) listener.end();
    this.#listeners.clear();
  }

  #beat(): void {
    this.#cancel = this.#clock.after(beatMs, () => {
      this.#cancel = null;
      this.#write('event: beat\ndata: {}\n\n');
      if (this.#listeners.size > 0) this.#beat();
    });
  }

  #write(text: string): void {
    for (const listener of this.#listeners) {
      if (listener.writableLength <= mostUnsentBytes) {
        listener.write(text);
      } else {
        this.#remove(listener);
        listener.destroy();
      }
    }
  }

  #remove(listener: Listener): void {
    this.#listeners.delete(listener);
  }
}

function asEvent(data: unknown): string {
  return `event: state\ndata: ${JSON.stringify(data)}\n\n`;
}
