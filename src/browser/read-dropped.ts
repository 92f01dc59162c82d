import type { PageState } from './page-state.ts';
import { isRead, kindOfDropped, mostTrialBytes } from './sort-dropped.ts';

/** What `File` of a browser has that is needed here. */
export interface DroppedFile {
  readonly name: string;
  readonly size: number;
  text(): Promise<string>;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** Takes each dropped file for what it is: the last trial, marker set and session count. What is none is told. */
export async function readDropped(files: readonly DroppedFile[], state: PageState): Promise<PageState> {
  let next: PageState = { ...state, faults: [] };
  for (const file of files) next = await take(file, next);
  return next;
}

async function take(file: DroppedFile, state: PageState): Promise<PageState> {
  const { name, size } = file;
  const refuse = (why: string): PageState => ({ ...state, faults: [...state.faults, `${name}: ${why}`] });
  if (size > mostTrialBytes) return refuse('it is larger than 1 GB; use the command setsquare check for it.');
  try {
    const text = isRead(name, size) ? await file.text() : null;
    switch (kindOfDropped(name, text)) {
      case 'trial':
        return { ...state, trial: { name, bytes: new Uint8Array(await file.arrayBuffer()) } };
      case 'marker-set':
        return { ...state, markerSet: { name, text } };
      case 'session':
        return { ...state, session: { name, text: text! } };
      default:
        return refuse('this is neither a marker set nor a session: its "format" says neither; choose another file.');
    }
  } catch {
    return refuse('it cannot be read; it may have been moved, or it is a folder. Drop the file itself.');
  }
}
