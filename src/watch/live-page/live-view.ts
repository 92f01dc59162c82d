import type { Capture } from '../../core/captures/capture-session.ts';
import type { WatchState } from '../trial-watch.ts';

/** All that the live page is drawn from. */
export interface LiveView {
  readonly state: WatchState;
  /** Counts what changes: the page asks for more where its own number is another. */
  readonly revision: number;
  /** Tells one run of the program from the next. */
  readonly run: string;
  /** When each capture was checked, by its number: "14:02". */
  readonly times: ReadonlyMap<number, string>;
  /** Name patterns that are watched for. */
  readonly names: readonly string[];
  /** Whether names of files may be shown: they often hold people's. */
  readonly showNames: boolean;
}

/** The capture that is shown: the one that was checked last. */
export function newestCapture({ state }: LiveView): Capture | null {
  return state.captures.at(-1) ?? null;
}
