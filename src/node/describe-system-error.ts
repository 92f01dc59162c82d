import { InputError } from './input-error.ts';

/** What a file system error means, without the path that its own message holds. */
export function describeSystemError(doing: string, error: unknown): InputError {
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'no more than that';
  const [found, remedy] = meanings[code] ?? [`the system says ${code}`, 'check the file and its disk'];
  return new InputError(`${doing}: ${found}`, remedy, { cause: error });
}

const meanings: Readonly<Record<string, readonly [found: string, remedy: string]>> = {
  ENOENT: ['there is no such file or folder', 'check the name and the folder'],
  ENOTDIR: ['part of its path is a file and not a folder', 'check the path'],
  EISDIR: ['it is a folder', 'name a file'],
  EEXIST: ['there is a file of that name, expected a folder', 'choose another name'],
  EACCES: ['access is not permitted', 'check the rights of the file and its folder'],
  EPERM: ['the system does not permit it', 'check the rights of the file and its folder'],
  EROFS: ['the disk can only be read', 'choose another folder'],
  ENOSPC: ['the disk is full', 'make room or choose another folder'],
  EMFILE: ['too many files are open', 'close some programs and try again'],
  ENAMETOOLONG: ['the name is too long', 'shorten it'],
  ELOOP: ['its links lead in a circle', 'name the file itself'],
  EIO: ['the disk reports a fault', 'copy the file again from its source'],
  ERR_INVALID_ARG_VALUE: ['the name holds a character that no file name can hold', 'check the name'],
};
