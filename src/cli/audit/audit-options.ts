import { Option } from 'commander';
import type { Share } from '../../audit/find/share-of-files.ts';
import { defaultMarkerSet, notEmpty } from '../options.ts';
import { UsageError } from '../usage-error.ts';

export const defaultMarkerSets: readonly string[] = [defaultMarkerSet];

/** An option that may be given several times; each time adds one. */
export function manyOption(flags: string, description: string): Option {
  const check = notEmpty(flags.split(' ')[0]!);
  return new Option(flags, description).argParser((text: string, before: readonly string[] | undefined) => [
    ...(before === undefined || before === defaultMarkerSets ? [] : before),
    check(text),
  ]);
}

/** `2/8` */
export function shareOption(): Option {
  return new Option('--share <NUMBER/OF>', 'check only this share of the files, such as 2/8').argParser(
    (text: string): Share => {
      const [, number, of] = /^(\d{1,5})\/(\d{1,5})$/.exec(text) ?? [];
      const share = { number: Number(number), of: Number(of) };
      if (of === undefined || share.number < 1 || share.number > share.of) {
        throw new UsageError(`--share is "${text}", expected a number and of how many, such as 2/8; correct it.`);
      }
      return share;
    },
  );
}

export function wholeNumber(flag: string, least: number, most: number): (text: string) => number {
  return (text) => {
    const number = /^\d{1,10}$/.test(text) ? Number(text) : Number.NaN;
    if (!(number >= least && number <= most)) {
      throw new UsageError(`${flag} is "${text}", expected a whole number from ${least} to ${most}.`);
    }
    return number;
  };
}
