import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { combineParts } from '../../../src/audit/parts/combine-parts.ts';
import { openPart } from '../../../src/audit/parts/open-part.ts';
import { type PartHeader, type PartSource, partFormat } from '../../../src/audit/parts/part-file.ts';
import type { TrialRow } from '../../../src/audit/parts/trial-row.ts';
import { forExport } from '../../../src/audit/parts/without-names.ts';
import { writeRows } from '../../../src/audit/parts/write-rows.ts';
import { hashOf, madeRow, wandCheck } from '../make-row.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string) => join(folder, name);
const header: PartHeader = {
  format: partFormat,
  share: { number: 1, of: 1 },
  sets: [],
  unread: { folders: 1, files: 0 },
};

function source(rows: readonly TrialRow[]) {
  return {
    header,
    async *rows() {
      yield* rows;
    },
  };
}

async function collect<Item>(items: AsyncIterable<Item>): Promise<Item[]> {
  const collected: Item[] = [];
  for await (const item of items) collected.push(item);
  return collected;
}

const rows = [
  madeRow({ sha256: hashOf(1), subject: "O'Neil\u0007", checks: [wandCheck('right', 12.125)], path: '/x/y.c3d' }),
  madeRow({
    sha256: hashOf(2),
    facts: ['block'],
    steps: [
      {
        action: 'move',
        marker: 'R_TW',
        forward_mm: -12.1,
        outward_mm: 0,
        up_mm: 0.5,
        distance_mm: 12.1,
        turn_deg: -7,
        probability: null,
        resolves: ['a', 'b'],
      },
    ],
    problems: [{ code: 'marker-gap', markers: ['__proto__'] }],
  }),
  madeRow({ trial: 'unread', sha256: null, fault: 'Access is not permitted.', verdict: 'not-assessable' }),
];

describe('a part', () => {
  it.each(['parquet', 'jsonl'])('as %s gives back the rows and the header that were written', async (ending) => {
    await writeRows(at(`part.${ending}`), source(rows).rows(), header);
    const part = await openPart(at(`part.${ending}`), at('scratch'));
    expect(part.header).toEqual(header);
    expect(await collect(part.rows())).toEqual(rows.map((row) => JSON.parse(JSON.stringify(row))));
    expect(await collect(part.identities())).toEqual([hashOf(1), hashOf(2), null]);
    // Nothing is left beside it.
    expect(readdirSync(folder).filter((name) => name.startsWith('.'))).toEqual([]);
  });

  it('that could not be written leaves what was there', async () => {
    writeFileSync(at('part.jsonl'), 'before');
    async function* failing(): AsyncIterable<TrialRow> {
      yield rows[0]!;
      throw new Error('the disk is gone');
    }
    await expect(writeRows(at('part.jsonl'), failing(), header)).rejects.toThrow('the disk is gone');
    expect(readFileSync(at('part.jsonl'), 'utf8')).toBe('before');
    expect(readdirSync(folder)).toEqual(['part.jsonl']);
  });

  it.each([
    ['empty.jsonl', '', 'no header'],
    ['other.jsonl', '{"format":"something"}\n', 'no header'],
    ['odd.jsonl', `${JSON.stringify(header)}\n{"trial":5}\n`, 'no row of an audit in line 2'],
    ['sets.jsonl', `${JSON.stringify({ ...header, sets: [null] })}\n`, 'no header'],
    ['no.parquet', 'PAR0', 'no Parquet file'],
  ])('is refused as %s', async (name, text, found) => {
    writeFileSync(at(name), text);
    const open = async () => collect((await openPart(at(name), at('scratch'))).rows());
    await expect(open()).rejects.toThrow(found);
  });

  it('is refused where there is none', async () => {
    await expect(openPart(at('none.jsonl'), at('scratch'))).rejects.toThrow('there is no such file');
  });
});

describe('parts together', () => {
  const opened = (list: readonly TrialRow[]) => ({
    ...source(list),
    async *identities() {
      for (const { sha256 } of list) yield sha256;
    },
  });

  it('hold a recording once, with the most that any of them knows, in whatever order they come', async () => {
    const poor = madeRow({ sha256: hashOf(5), assessor: null, has_session: false });
    const rich = madeRow({ sha256: hashOf(5), copies: 2 });
    const other = madeRow({ sha256: hashOf(6) });
    for (const parts of [[[poor], [rich, other]], [[other, rich], [poor]], [[rich, other, poor]]]) {
      const together = await collect(combineParts(parts.map(opened)).rows());
      const sorted = together.sort((a, b) => (a.sha256! < b.sha256! ? -1 : 1));
      expect(sorted).toEqual([{ ...rich, copies: 3 }, other]);
    }
  });

  it('add up what none of them could read', () => {
    expect(combineParts([opened([]), opened([])]).header.unread).toEqual({ folders: 2, files: 0 });
  });
});

describe('an export', () => {
  it('holds neither path nor whole hash, unless names are to be shown', async () => {
    await writeRows(at('rows.jsonl'), forExport(source(rows), false), null);
    const text = readFileSync(at('rows.jsonl'), 'utf8');
    expect(text).not.toContain('/x/y.c3d');
    expect(text).not.toContain(hashOf(1));
    expect(text).toContain(`"trial":"${hashOf(1).slice(0, 8)}"`);
    await writeRows(at('named.jsonl'), forExport(source(rows), true), null);
    expect(readFileSync(at('named.jsonl'), 'utf8')).toContain('/x/y.c3d');
    expect(existsSync(at('named.jsonl'))).toBe(true);
  });
});

describe('a part of many recordings', () => {
  // With two threads DuckDB ran out of its memory on a year of ten thousand trials, and the part was called no Parquet.
  it('is read back whole: ten thousand, as large as real ones', async () => {
    const count = 10_000;
    const checks = Array.from({ length: 51 }, (_, index) => wandCheck('right', index / 7));
    const large: PartSource['rows'] = async function* () {
      for (let index = 0; index < count; index++) yield madeRow({ sha256: hashOf(index), checks });
    };
    await writeRows(at('part-1-of-1.parquet'), large(), header);
    const part = await openPart(at('part-1-of-1.parquet'), at('scratch'));
    let read = 0;
    for await (const row of part.rows()) {
      if (row.sha256 !== hashOf(read) || row.checks.length !== 51) throw new Error(`Row ${read} is another.`);
      read += 1;
    }
    expect(read).toBe(count);
  }, 60_000);
});
