import { SingleBar } from 'cli-progress';
import type { CommandContext } from '../command-context.ts';

export interface ProgressBar {
  update(done: number, total: number): void;
  stop(): void;
}

/** A bar on standard error, where a person sees it; else nothing. */
export function progressBar({ channels, sentencesAreSeen }: CommandContext): ProgressBar {
  if (!sentencesAreSeen) return { update() {}, stop() {} };
  const bar = new SingleBar({
    stream: channels.sentences as unknown as NodeJS.WritableStream,
    format: 'checking {bar} {value} of {total}, {eta_formatted} left',
    barCompleteChar: '=',
    barIncompleteChar: '.',
    barsize: 30,
    hideCursor: true,
    clearOnComplete: true,
    stopOnComplete: false,
    fps: 5,
  });
  let isStarted = false;
  return {
    update(done, total) {
      if (!isStarted) bar.start(total, done);
      isStarted = true;
      bar.update(done);
    },
    stop() {
      if (isStarted) bar.stop();
      isStarted = false;
    },
  };
}
