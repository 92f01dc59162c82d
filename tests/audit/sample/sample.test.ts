import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareReaders } from '../../../src/audit/sample/compare-readers.ts';
import { allocate, drawSample } from '../../../src/audit/sample/draw-sample.ts';
import { formatSampleReport } from '../../../src/audit/sample/format-sample.ts';
import { parseCsv } from '../../../src/audit/sample/parse-csv.ts';
import { readVerdicts } from '../../../src/audit/sample/read-verdicts.ts';
import { formatReadingList } from '../../../src/audit/sample/reading-list.ts';
import { hashOf, madeRow } from '../make-row.ts';

const rows = Array.from({ length: 90 }, (_, index) =>
  madeRow({ sha256: hashOf(index), assessor: index < 60 ? 'AK' : index < 85 ? 'BN' : null, subject: `P${index}` }),
);

const source = (list: readonly ReturnType<typeof madeRow>[]) => ({
  async *rows() {
    yield* list;
  },
});

describe('a sample', () => {
  it('is drawn from every assessor in proportion, and again by the same seed in whatever order', async () => {
    const sample = await drawSample(source(rows), 18, 7);
    expect(sample.strata).toEqual([
      { assessor: '', of: 5, drawn: 1 },
      { assessor: 'AK', of: 60, drawn: 12 },
      { assessor: 'BN', of: 25, drawn: 5 },
    ]);
    expect(await drawSample(source([...rows].reverse()), 18, 7)).toEqual(sample);
    expect((await drawSample(source(rows), 18, 8)).trials).not.toEqual(sample.trials);
  });

  it('draws each trial about as often as any other', async () => {
    const times = new Map<string, number>();
    for (let seed = 0; seed < 600; seed++) {
      for (const { trial } of (await drawSample(source(rows.slice(0, 60)), 12, seed)).trials)
        times.set(trial, (times.get(trial) ?? 0) + 1);
    }
    // 600 draws of 12 of 60: 120 each, SD 9.8.
    expect(times.size).toBe(60);
    for (const count of times.values()) expect(Math.abs(count - 120)).toBeLessThan(5 * 9.8);
  });

  it('draws no file that could not be read, and all where fewer are there than asked for', async () => {
    const some = [...rows.slice(0, 3), madeRow({ sha256: hashOf(999), fault: 'Cut off.' })];
    expect((await drawSample(source(some), 20, 1)).trials).toHaveLength(3);
  });

  it('shares out every trial, never more than there is, and one to each where that is possible', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 1, maxLength: 12 }),
        fc.nat(600),
        (sizes, n) => {
          const shares = allocate(sizes, n);
          const all = sizes.reduce((a, b) => a + b, 0);
          expect(shares.reduce((a, b) => a + b, 0)).toBe(Math.min(n, all));
          shares.forEach((share, index) => expect(share).toBeLessThanOrEqual(sizes[index]!));
          if (n >= sizes.length) expect(Math.min(...shares)).toBeGreaterThan(0);
        },
      ),
    );
  });
});

/** The list of a sample as a reader hands it back. */
async function filledIn(fill: (trial: string) => string): Promise<string> {
  const [head, ...lines] = formatReadingList(await drawSample(source(rows), 6, 1), new Map())
    .trim()
    .split('\r\n');
  return [head, ...lines.map((line) => line.replace(/,{7}$/, fill(line.split(',')[1]!.slice(2))))].join('\r\n');
}

describe('verdicts of readers', () => {
  it('are read back from the list that was printed, blank ones counted', async () => {
    let line = 0;
    const text = await filledIn(() => (++line === 1 ? ',,,,,,,' : ',R1,Adjust,heel low,,,,'));
    const { readings, unread } = readVerdicts(text, 'list.csv');
    expect(unread).toBe(1);
    expect(readings).toHaveLength(5);
    expect(readings[0]).toMatchObject({ reader: 'R1', verdict: 'adjust', reasons: 'heel low', nonConformance: null });
  });

  const list = (line: string) => `number,trial,reader,verdict,non_conformance,corrective_action,due,closed\n${line}`;

  it.each([
    ['1,h-0000000a,R1,fine,,,,', 'line 2: found "fine" as verdict'],
    ['1,h-0000000a,Ann Lee,ready,,,,', 'line 2: found "Ann Lee" as reader'],
    ['1,1e10,R1,ready,,,,', 'line 2: found "1e10" as trial'],
    ['1,h-0000000a,R1,ready,late,call,2026-02-30,', 'line 2: found "2026-02-30" as due'],
    ['1,h-0000000a,R1,ready,,call,,', 'found an action or a day without a non-conformance'],
    ['1,h-0000000a,R1,ready,,,,\n2,h-0000000a,R1,adjust,,,,', 'line 3: found trial 0000000a a second time by R1'],
    ['1,"h-0000000a', 'a quotation mark that is never closed'],
  ])('are refused as %j', (line, found) => {
    expect(() => readVerdicts(list(line), 'list.csv')).toThrow(found);
  });

  it('may be separated by semicolons, as spreadsheets of many countries do', () => {
    const text = '\ufefftrial;reader;verdict\r\nh-0000000a;R1;ready\r\n';
    expect(readVerdicts(text, 'list.csv').readings).toMatchObject([{ trial: '0000000a', verdict: 'ready' }]);
  });

  it('are compared with the tool and with each other, and what is due is followed up', () => {
    const first = list(
      [
        '1,h-00000001,R1,ready,,,,',
        '2,h-00000002,R1,adjust,wand forward,practise with BN,2026-01-31,',
        '3,h-00000003,R1,adjust,no session file,write one,2026-01-31,2026-01-10',
        '4,h-00000009,R1,ready,,,,',
      ].join('\n'),
    );
    const second = list('1,h-00000001,R2,ready,,,,\n2,h-00000002,R2,ready,,,,\n3,h-00000003,R2,adjust,,,,');
    const readings = [first, second].flatMap((text) => readVerdicts(text, 'list.csv').readings);
    const tool = new Map([
      ['00000001', 'ready'],
      ['00000002', 'adjust'],
      ['00000003', 'adjust'],
    ] as const);
    const report = compareReaders(readings, 0, tool, '2026-02-01');
    expect(report.unknown).toEqual(['00000009']);
    expect(report.withTool[0]).toMatchObject({ first: 'R1', count: 3, observed: 1, kappa: 1, disagreements: [] });
    // Of three pairs two agree; by chance (2/3 * 1/3 + 1/3 * 2/3) = 4/9: kappa (2/3 - 4/9) / (5/9) = 0.4.
    expect(report.betweenReaders[0]!.kappa).toBeCloseTo(0.4, 12);
    expect(report.betweenReaders[0]!.disagreements).toEqual([{ trial: '00000002', first: 'adjust', second: 'ready' }]);
    expect(report.nonConformances.map(({ state }) => state)).toEqual(['overdue', 'closed']);
    const text = formatSampleReport(report, { columns: 80, color: false });
    expect(text).toContain('2 of 3 alike (67 %), kappa 0.40');
    expect(text).toContain('Action: practise with BN; due 2026-01-31, closed -');
    expect(text.replaceAll(/\s+/g, ' ')).toContain('3 trials are few, so this says little');
  });
});

describe('a table in text', () => {
  it('gives back what was quoted', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.string({ minLength: 1 }), { minLength: 2, maxLength: 4 }), { minLength: 1 }),
        (table) => {
          fc.pre(table.every((row) => row.some((cell) => cell.trim() !== '')));
          const text = table.map((row) => row.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',')).join('\r\n');
          const [first = ''] = text.split(/\r?\n/, 1);
          fc.pre(first.includes(',') && !text.startsWith('"\ufeff'));
          expect(parseCsv(text)).toEqual(table);
        },
      ),
    );
  });
});
