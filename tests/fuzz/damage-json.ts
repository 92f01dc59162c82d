import type { CaseRandom } from './case-random.ts';
import { hostileTexts } from './hostile-text.ts';

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

interface Place {
  holder: Json[] | { [key: string]: Json };
  key: string;
}

const oddNumbers = [0, -1, 1, 0.001, 0.5, 2, 45, 60, 100, 200, 500, 2000, 1e9, 1e300, -1e300, 5e-324];

/**
 * A marker set or session with one to four changes: to its values, so that most still fit the schema, or rarely to its
 * letters.
 */
export function damagedJson(source: string, random: CaseRandom): string {
  const data = JSON.parse(source) as Json;
  for (let left = random.pick([1, 1, 1, 2, 4]); left > 0; left--) change(data, random);
  const text = JSON.stringify(data);
  return random.chance(0.05) ? damagedText(text, random) : text;
}

function damagedText(text: string, random: CaseRandom): string {
  const at = random.whole(text.length + 1);
  switch (random.whole(7)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return `${text.slice(0, at)}${random.pick(hostileTexts)}${text.slice(at)}`;
    case 2:
      return text.replaceAll(/:\d+/g, ':1e999');
    case 3:
      return `${'['.repeat(100_000)}${text}`;
    case 4:
      return `${text.slice(0, at)}${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}${text.slice(at + 1)}`;
    case 5:
      return text.replace('"format"', `"${random.pick(['__proto__', 'constructor', 'format'])}"`);
    default:
      return text.slice(0, at) + text.slice(at + 1 + random.whole(20));
  }
}

const changes: readonly ((place: Place, value: Json, places: readonly Place[], random: CaseRandom) => void)[] = [
  function leaveOut({ holder, key }) {
    if (Array.isArray(holder)) holder.splice(Number(key), 1);
    else delete holder[key];
  },
  function repeat({ holder }, value) {
    if (Array.isArray(holder)) holder.push(structuredClone(value));
  },
  function anotherType({ holder, key }, _, __, random) {
    write(holder, key, random.pick<Json>([null, true, [], {}, '', 0, random.pick(hostileTexts)]));
  },
  function fromElsewhere({ holder, key }, _, places, random) {
    const from = random.pick(places);
    write(holder, key, structuredClone(read(from.holder, from.key)));
  },
  function oddKey({ holder }, value, _, random) {
    write(holder, random.pick(hostileTexts), structuredClone(value));
  },
  ...new Array<typeof otherValue>(15).fill(otherValue),
];

/** Of the same type, and where it is a text often one that stands in another entry under the same key. */
function otherValue({ holder, key }: Place, value: Json, places: readonly Place[], random: CaseRandom): void {
  if (typeof value === 'number') write(holder, key, oddNumber(value, random));
  else if (typeof value === 'boolean') write(holder, key, !value);
  else if (typeof value === 'string' && random.chance(0.3)) write(holder, key, random.pick(hostileTexts));
  else {
    const alike = places.filter((place) => place.key === key && typeof read(place.holder, key) === typeof value);
    const from = random.pick(alike);
    write(holder, key, structuredClone(read(from.holder, from.key)));
  }
}

function change(data: Json, random: CaseRandom): void {
  const places = placesIn(data);
  const place = random.pick(places);
  random.pick(changes)(place, read(place.holder, place.key), places, random);
}

function oddNumber(value: number, random: CaseRandom): number {
  return random.pick([-value, value * 2, value / 1000, random.pick(oddNumbers), random.pick(oddNumbers)]);
}

function placesIn(data: Json, places: Place[] = []): Place[] {
  if (data === null || typeof data !== 'object') return places;
  for (const [key, value] of Object.entries(data)) {
    places.push({ holder: data, key });
    placesIn(value, places);
  }
  return places;
}

function read(holder: Place['holder'], key: string): Json {
  return Array.isArray(holder) ? holder[Number(key)]! : holder[key]!;
}

/** As JSON.parse would: `__proto__` is a key like others. */
function write(holder: Place['holder'], key: string, value: Json): void {
  if (Array.isArray(holder)) holder[Number.isNaN(Number(key)) ? 0 : Number(key)] = value;
  else Object.defineProperty(holder, key, { value, configurable: true, enumerable: true, writable: true });
}
