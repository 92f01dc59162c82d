import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { InputError } from '../../node/input-error.ts';

/** Says that a folder is a store, and in which form; it comes first, so a store is never without it. */
const mark = 'setsquare-audit-store.json';
const storeFormat = 'setsquare-audit-store/1';

/**
 * Makes the folder a store, or sees that it is one. Several audits may do so at once.
 * @throws {InputError} where it cannot be made, or holds somebody else's files.
 */
export function claimFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const names = readdirSync(folder);
    const written = names.includes(mark) ? readFileSync(join(folder, mark), 'utf8') : '';
    if (written === markText) return;
    // An audit that was killed while writing it left it short.
    if (!markText.startsWith(written))
      throw new InputError(`${folder} is a store of another version of setsquare`, 'name another folder by --store');
    const foreign = names.filter((name) => name !== mark);
    if (foreign.length > 0 && !names.includes(mark))
      throw new InputError(
        `${folder} is no store of an audit and holds files already (${foreign[0]}), expected an empty folder or a store`,
        'name another folder by --store',
      );
    writeFileSync(join(folder, mark), markText, { mode: 0o600 });
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw describeSystemError(`Cannot make the audit's store in ${folder}`, error);
  }
}

const markText = `${JSON.stringify({ format: storeFormat })}\n`;
