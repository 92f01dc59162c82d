import { BLOCK_BYTES, type ByteReader } from './byte-reader.ts';
import type { C3dWarning } from './c3d-warnings.ts';
import type { C3dParameter } from './parameter.ts';
import { type ParameterRecords, readRecords } from './parameter-records.ts';
import { counted, few } from './warning-text.ts';

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

/** The block count of the section is one byte. */
const LARGEST_SECTION_BYTES = 255 * BLOCK_BYTES;

/**
 * Reads the parameter section that starts at `sectionOffset`. Records are looked for past the stated block count as
 * far as `dataOffset` (a count over 255 wraps in its byte), but no further than four full sections. Values may
 * overrun their record, never the file; all values together may be no larger than two full sections. Where a name is
 * stored twice the first counts; two groups of one name join.
 */
export function readParameters(
  reader: ByteReader,
  sectionOffset: number,
  dataOffset: number,
  warnings: C3dWarning[],
): ParameterSection {
  const endOffset = sectionOffset + reader.uint8(sectionOffset + 2) * BLOCK_BYTES;
  const furthest = Math.min(Math.max(endOffset, dataOffset), sectionOffset + 4 * LARGEST_SECTION_BYTES);
  const limit = Math.min(reader.byteLength, furthest);
  const records = readRecords(reader, sectionOffset + 4, limit, 2 * LARGEST_SECTION_BYTES, warnings);
  if (records.unreadableAt.length > 0) {
    const skipped = counted(records.unreadableAt.length, 'parameter');
    const message = `An unknown type or more values than can be there, at byte ${few(records.unreadableAt)}: ${skipped} skipped.`;
    warnings.push({ code: 'parameter-unreadable', message });
  }
  return { groups: assembleGroups(records, warnings), endOffset };
}

function assembleGroups(records: ParameterRecords, warnings: C3dWarning[]): Map<string, C3dGroup> {
  const groups = new Map<string, C3dGroup>();
  const byId = new Map<number, C3dGroup>();
  const repeatedAt: number[] = [];
  const unnamed: number[] = [];
  const enter = (id: number, name: string, description: string): C3dGroup => {
    const group = groups.get(name) ?? { name, description, parameters: new Map() };
    groups.set(name, group);
    byId.set(id, group);
    return group;
  };
  for (const { id, recordOffset, name, description } of records.groups) {
    if (byId.has(id)) repeatedAt.push(recordOffset);
    else enter(id, name, description);
  }
  for (const { groupId, recordOffset, parameter } of records.parameters) {
    if (!byId.has(groupId)) unnamed.push(groupId);
    const group = byId.get(groupId) ?? enter(groupId, `#${groupId}`, '');
    if (group.parameters.has(parameter.name)) repeatedAt.push(recordOffset);
    else group.parameters.set(parameter.name, parameter);
  }
  if (unnamed.length > 0) {
    const message = `No group record for number ${few(unnamed)}; its parameters are kept under # and the number.`;
    warnings.push({ code: 'group-missing', message });
  }
  if (repeatedAt.length > 0) {
    const passedOver = counted(repeatedAt.length, 'record');
    const message = `Stored before under the same name or number, at byte ${few(repeatedAt)}: ${passedOver} passed over.`;
    warnings.push({ code: 'parameter-repeated', message });
  }
  return groups;
}
