import type { WrittenVerdict } from '../../core/practice/score-verdict.ts';
import type { ShownTrial, ToldTrial } from '../../core/practice/shown-trial.ts';
import type { TraineeRecord } from '../../core/practice/trainee-record.ts';
import type { SignedOff } from './sign-off-form.tsx';

/** Where trials come from and verdicts go: a worker of this page, or the command that serves it. Failures are sentences. */
export interface PracticeSource {
  answer(number: number, written: WrittenVerdict): Promise<ToldTrial>;
}

/** The command `setsquare practice`, which keeps the history on its disk. */
export class ServedPractice implements PracticeSource {
  readonly #token: string;

  constructor(token: string) {
    this.#token = token;
  }

  async current(): Promise<ShownTrial | null> {
    return (await this.#ask<{ trial: ShownTrial | null }>('trial', null)).trial;
  }

  async begin(): Promise<ShownTrial | null> {
    return (await this.#ask<{ trial: ShownTrial | null }>('begin', {})).trial;
  }

  answer(number: number, written: WrittenVerdict): Promise<ToldTrial> {
    return this.#ask('answer', { number, written });
  }

  async record(): Promise<TraineeRecord> {
    return (await this.#ask<{ record: TraineeRecord }>('record', null)).record;
  }

  /** Adds a sign-off; the record with it. */
  async signOff(signed: SignedOff): Promise<TraineeRecord> {
    return (await this.#ask<{ record: TraineeRecord }>('sign-off', signed)).record;
  }

  async #ask<Told>(what: string, body: object | null): Promise<Told> {
    let response: Response;
    try {
      response = await fetch(`/practice/${what}`, {
        headers: { 'x-setsquare-token': this.#token, ...(body === null ? {} : { 'content-type': 'application/json' }) },
        ...(body === null ? {} : { method: 'POST', body: JSON.stringify(body) }),
      });
    } catch {
      throw new Error('setsquare does not answer: is it still running? What was answered before is kept.');
    }
    const told = await response.json();
    if (!response.ok) throw new Error(told.refused);
    return told;
  }
}
