import { watch } from 'chokidar';
import { foldersDown } from './list-trials.ts';

/** Tells that something happened to a path; may tell too often, and on some shares never. */
export type OpenHints = (folder: string, onHint: (path: string) => void) => { close(): Promise<void> };

/** Hints by the events of the file system. Errors are let pass: whoever listens looks through the folder anyway. */
export const eventHints: OpenHints = (folder, onHint) => {
  const watcher = watch(folder, {
    ignoreInitial: true,
    ignorePermissionErrors: true,
    // A link to a folder may lead in a circle; what lies behind it is found by looking.
    followSymlinks: false,
    depth: foldersDown,
    ignored: (path, stats) => stats?.isFile() === true && !/\.c3d$/i.test(path),
  });
  watcher.on('all', (_event, path) => onHint(path));
  watcher.on('error', () => {});
  return { close: () => watcher.close() };
};

/** For shares that send no events: none. */
export const noHints: OpenHints = () => ({ close: async () => {} });
