import type { LoadedMarkerSet } from '../marker-set/parse-marker-set.ts';
import { validateNorms } from '../schemas/compiled/norms.js';
import { readValidated } from '../schemas/read-validated.ts';
import type { Norms } from './norms.ts';
import { NormsError } from './norms-error.ts';
import { usableNorms } from './usable-norms.ts';

/**
 * Reads a norms file (`shared/schemas/norms.schema.json`) for a marker set.
 * @throws NormsError naming the JSON pointer of the first fault, or where the norms are for another set.
 */
export function parseNorms(text: string, set: LoadedMarkerSet): Norms {
  const read = readValidated('norms', text, validateNorms);
  if ('fault' in read) throw new NormsError(read.fault.pointer, read.fault.message);
  return usableNorms(read.data as Norms, set);
}
