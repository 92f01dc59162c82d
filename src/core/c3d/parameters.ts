import { BLOCK_BYTES, type ByteReader } from './byte-reader.ts';
import type { C3dWarning } from './c3d-warnings.ts';
import { decodeText } from './decode-text.ts';
import { type C3dParameter, readParameter } from './parameter.ts';

/** A group of parameters; the keys are the names in upper case. */
export interface C3dGroup {
  name: string;
  description: string;
  parameters: Map<string, C3dParameter>;
}

export interface ParameterSection {
  groups: Map<string, C3dGroup>;
  /** first byte after the section, by its block count */
  endOffset: number;
}

/** One record holds at least: name length, id, a one-letter name, next-offset, description length. */
const LARGEST_SECTION_BYTES = 255 * BLOCK_BYTES;

/**
 * Reads the parameter section that starts at `sectionOffset`.
 *
 * Records are followed by their next-offset, which only ever leads forward, so a bad one ends the walk and cannot
 * loop. The walk may go past the stated block count up to `dataOffset` (a count over 255 wraps in its byte). Values
 * may overrun their record, never the file; all values together may be no larger than two full sections.
 */
export function readParameters(
  reader: ByteReader,
  sectionOffset: number,
  dataOffset: number,
  warnings: C3dWarning[],
): ParameterSection {
  const endOffset = sectionOffset + reader.uint8(sectionOffset + 2) * BLOCK_BYTES;
  const limit = Math.min(reader.byteLength, Math.max(endOffset, dataOffset));
  const namesById = new Map<number, C3dGroup>();
  const found: { groupId: number; parameter: C3dParameter }[] = [];
  const budget = { bytes: 2 * LARGEST_SECTION_BYTES };

  let offset = sectionOffset + 4;
  for (;;) {
    if (offset + 2 > limit) {
      warnings.push({
        code: 'parameters-unterminated',
        message: `The parameter list has no end mark before byte ${limit}; the records up to there were read.`,
      });
      break;
    }
    const nameLength = Math.abs(reader.int8(offset));
    const id = reader.int8(offset + 1);
    // The list ends at an empty name; group number 0 belongs to no record.
    if (nameLength === 0 || id === 0) break;
    const nextField = offset + 2 + nameLength;
    if (nextField + 2 > limit) {
      warnings.push(brokenOff(offset, 'its name runs beyond the section'));
      break;
    }
    const name = decodeText(reader.bytes, offset + 2, nameLength).toUpperCase();
    let recordEnd = nextField + 2;
    if (id < 0) {
      const description = readDescription(reader, nextField + 2, limit);
      recordEnd = description.end;
      if (namesById.has(-id)) warnings.push(repeated(offset, 'group'));
      else namesById.set(-id, { name, description: description.text, parameters: new Map() });
    } else {
      const read = readParameter(reader, nextField + 2, budget);
      if (read === null) {
        warnings.push({
          code: 'parameter-unreadable',
          message: `The parameter at byte ${offset} has an unknown type or more values than can be there; it was skipped.`,
        });
      } else {
        const description = readDescription(reader, read.end, limit);
        recordEnd = description.end;
        found.push({ groupId: id, parameter: { ...read.parameter, name, description: description.text } });
      }
    }

    const next = nextOffset(reader, nextField, recordEnd);
    if (next === null) break;
    if (next < 0 || nextField + next > limit) {
      warnings.push(brokenOff(offset, `its next-offset is ${next}`));
      break;
    }
    offset = nextField + next;
  }
  return { groups: assignGroups(namesById, found, warnings), endOffset };
}

/** The next-offset, or null at the end of the list. Stored signed; over 32767 it is believed only where the record ends. */
function nextOffset(reader: ByteReader, nextField: number, recordEnd: number): number | null {
  const stored = reader.int16(nextField);
  if (stored === 0) return null;
  if (stored < 0 && nextField + stored + 65536 === recordEnd) return stored + 65536;
  return stored;
}

/** Description with its length byte, which some writers leave out at the end of the section. */
function readDescription(reader: ByteReader, offset: number, limit: number): { text: string; end: number } {
  if (offset >= limit) return { text: '', end: offset };
  const length = reader.uint8(offset);
  const end = offset + 1 + length;
  return { text: end > limit ? '' : decodeText(reader.bytes, offset + 1, length), end };
}

function assignGroups(
  namesById: Map<number, C3dGroup>,
  found: { groupId: number; parameter: C3dParameter }[],
  warnings: C3dWarning[],
): Map<string, C3dGroup> {
  const groups = new Map<string, C3dGroup>();
  const byId = new Map<number, C3dGroup>();
  for (const [id, group] of namesById) {
    const known = groups.get(group.name);
    if (known === undefined) groups.set(group.name, group);
    else
      warnings.push({
        code: 'parameter-repeated',
        message: `Group numbers up to ${id} share one name; they were joined.`,
      });
    byId.set(id, known ?? group);
  }
  for (const { groupId, parameter } of found) {
    let group = byId.get(groupId);
    if (group === undefined) {
      group = { name: `#${groupId}`, description: '', parameters: new Map() };
      byId.set(groupId, group);
      groups.set(group.name, group);
      warnings.push({
        code: 'group-missing',
        message: `Parameters belong to group ${groupId}, which has no record; they are kept as group #${groupId}.`,
      });
    }
    if (group.parameters.has(parameter.name)) {
      warnings.push({
        code: 'parameter-repeated',
        message: `A parameter of group ${groupId} is stored twice; the first one was used.`,
      });
    } else group.parameters.set(parameter.name, parameter);
  }
  return groups;
}

function brokenOff(offset: number, reason: string): C3dWarning {
  return {
    code: 'parameters-broken-off',
    message: `The parameter record at byte ${offset} breaks the list off (${reason}); records after it were not read.`,
  };
}

function repeated(offset: number, kind: string): C3dWarning {
  return {
    code: 'parameter-repeated',
    message: `The ${kind} at byte ${offset} is stored twice; the first one was used.`,
  };
}
