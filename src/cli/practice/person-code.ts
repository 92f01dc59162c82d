import { readCode } from '../../audit/trial/read-code.ts';
import { UsageError } from '../usage-error.ts';

/** A person's code: what the session file takes for one. @throws {UsageError} for what may be a name */
export function personCode(flag: string, text: string): string {
  const code = readCode('assessor', text);
  if (code !== null) return code;
  throw new UsageError(`${flag} is "${text}", expected a code without spaces such as AB, and never a name.`);
}
