import { Option } from 'commander';
import { readCode } from '../../audit/trial/read-code.ts';
import { UsageError } from '../usage-error.ts';

/** A person's code: what the session file takes for one. */
export function codeOption(flag: string, description: string): Option {
  return new Option(`${flag} <CODE>`, description).argParser((text: string) => {
    const code = readCode('assessor', text);
    if (code !== null) return code;
    throw new UsageError(`${flag} is "${text}", expected a code without spaces such as AB, and never a name.`);
  });
}
