// One of the processes of `npm run accuracy`: measures the parts it is sent, one after the other.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Norms } from '../src/core/decision/norms.ts';
import { parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';
import { measurePart, type Part } from '../tests/accuracy/measure-part.ts';

const shared = new URL('../shared/', import.meta.url);
const bytes = readFileSync(new URL('marker-sets/lower-limb-wands-22.json', shared));
const set = parseMarkerSet(bytes.toString('utf8'), createHash('sha256').update(bytes).digest('hex'));
const norms: Norms = JSON.parse(readFileSync(new URL('norms/lower-limb-wands-22.json', shared), 'utf8'));

process.on('message', (part: Part) => process.send!(measurePart(part, set, norms)));
