import type { ByteReader } from './byte-reader.ts';
import type { C3dWarning } from './c3d-warnings.ts';
import { decodeText } from './decode-text.ts';
import type { C3dParameter } from './parameter.ts';
import { readParameterValues } from './parameter.ts';

/** Group and parameter records in the order of the file, each with the byte it starts at. */
export interface ParameterRecords {
  groups: { id: number; recordOffset: number; name: string; description: string }[];
  parameters: { groupId: number; recordOffset: number; parameter: C3dParameter }[];
  /** where parameters start whose values could not be read */
  unreadableAt: number[];
}

/**
 * Walks the records from `start` up to the end mark or `limit`: name length (negative: locked), group number (negative
 * for the group itself), name, next-offset counted from its own field, then for a parameter type, dimensions and
 * values, then a description with its length. The next-offset alone leads on, and only forward, so a bad one ends the
 * walk and cannot loop. `budgetBytes` bounds what all values together may take.
 */
export function readRecords(
  reader: ByteReader,
  start: number,
  limit: number,
  budgetBytes: number,
  warnings: C3dWarning[],
): ParameterRecords {
  const records: ParameterRecords = { groups: [], parameters: [], unreadableAt: [] };
  const budget = { bytes: budgetBytes };
  let recordOffset = start;
  while (recordOffset + 2 <= limit) {
    const nameLength = Math.abs(reader.int8(recordOffset));
    if (nameLength === 0) return records;
    const nextField = recordOffset + 2 + nameLength;
    if (nextField + 2 > limit) {
      warnings.push(brokenOff(recordOffset, 'its name runs beyond the section'));
      return records;
    }
    const next = readNextOffset(reader, nextField, limit);
    const usable = next > 0 && nextField + next <= limit;
    readRecord(reader, recordOffset, nextField, usable ? nextField + next : limit, budget, records);
    if (next === 0) return records;
    if (!usable) {
      warnings.push(brokenOff(recordOffset, `its next-offset is ${next}`));
      return records;
    }
    recordOffset = nextField + next;
  }
  warnings.push({
    code: 'parameters-unterminated',
    message: `The parameter list has no end mark before byte ${limit}; the records up to there were read.`,
  });
  return records;
}

function readRecord(
  reader: ByteReader,
  recordOffset: number,
  nextField: number,
  recordEnd: number,
  budget: { bytes: number },
  records: ParameterRecords,
): void {
  const id = reader.int8(recordOffset + 1);
  const name = decodeText(reader.bytes, recordOffset + 2, nextField - recordOffset - 2).toUpperCase();
  if (id < 0) {
    const description = readDescription(reader, nextField + 2, recordEnd);
    records.groups.push({ id: -id, recordOffset, name, description });
    return;
  }
  // Number 0 belongs to no group: such a record is passed over.
  if (id === 0) return;
  const read = readParameterValues(reader, nextField + 2, budget);
  if (read === null) {
    records.unreadableAt.push(recordOffset);
    return;
  }
  const description = readDescription(reader, read.end, recordEnd);
  records.parameters.push({ groupId: id, recordOffset, parameter: { name, description, ...read.content } });
}

/**
 * Stored signed. A record over 32767 bytes makes it negative: then it is believed where another record or the end
 * mark of the list can start there, that is, inside the section.
 */
function readNextOffset(reader: ByteReader, nextField: number, limit: number): number {
  const stored = reader.int16(nextField);
  const unsigned = stored + 65536;
  return stored < 0 && nextField + unsigned + 2 <= limit ? unsigned : stored;
}

/** The description after its length byte; '' where it does not end with its record: some writers leave it out. */
function readDescription(reader: ByteReader, offset: number, recordEnd: number): string {
  if (offset >= recordEnd) return '';
  const length = reader.uint8(offset);
  return offset + 1 + length > recordEnd ? '' : decodeText(reader.bytes, offset + 1, length);
}

function brokenOff(recordOffset: number, reason: string): C3dWarning {
  return {
    code: 'parameters-broken-off',
    message: `The parameter record at byte ${recordOffset} breaks the list off (${reason}); records after it were not read.`,
  };
}
