import { Option } from 'commander';
import { UsageError } from './usage-error.ts';

export const defaultMarkerSet = 'lower-limb-wands-22';

export interface FrameRange {
  readonly first: number;
  readonly last: number;
}

/** `12-212`, as the file numbers its frames. */
export function framesOption(): Option {
  return new Option('--frames <FIRST-LAST>', 'judge these frames only, as the file numbers them').argParser(
    (text: string): FrameRange => {
      const [, first, last] = /^(\d{1,7})-(\d{1,7})$/.exec(text) ?? [];
      if (first === undefined || last === undefined || Number(first) > Number(last)) {
        throw new UsageError(
          `--frames is "${text}", expected the first and the last frame such as 12-212; correct it or leave it out.`,
        );
      }
      return { first: Number(first), last: Number(last) };
    },
  );
}

/** One of the formats of a command. */
export function formatOption(formats: readonly string[]): Option {
  return new Option('--format <FORMAT>', `what is printed: ${inWords(formats)}`)
    .default(formats[0])
    .argParser((text: string) => {
      if (formats.includes(text)) return text;
      throw new UsageError(`--format is "${text}", expected ${inWords(formats)}.`);
    });
}

/** A path or name: an empty one comes from an unset variable in a script and would be misread as none. */
export function notEmpty(flag: string): (text: string) => string {
  return (text) => {
    if (text === '') throw new UsageError(`${flag} is empty, expected a name or a path; give one or leave it out.`);
    return text;
  };
}

function inWords(names: readonly string[]): string {
  return `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
}

/** A port of this computer; 0 for any that is free. */
export function portOption(usual: number): Option {
  return new Option('--port <NUMBER>', 'port of this computer, 0 for any that is free')
    .default(usual)
    .argParser((text) => {
      const port = /^\d{1,5}$/.test(text) ? Number(text) : Number.NaN;
      if (port <= 65_535) return port;
      throw new UsageError(`--port is "${text}", expected a number from 0 to 65535; correct it or leave it out.`);
    });
}
