import type { Io } from './io.ts';

/** Whether to colour: what the command line says, then NO_COLOR and FORCE_COLOR where not empty, then the terminal. */
export function wantsColor(flag: boolean | undefined, { env = {}, stdout }: Pick<Io, 'env' | 'stdout'>): boolean {
  if (flag !== undefined) return flag;
  if (env.NO_COLOR) return false;
  if (env.FORCE_COLOR) return env.FORCE_COLOR !== '0' && env.FORCE_COLOR !== 'false';
  return stdout.isTTY === true && env.TERM !== 'dumb';
}
