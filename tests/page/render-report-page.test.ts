import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { formatJson } from '../../src/core/report/format-json.ts';
import type { Report } from '../../src/core/report/report.ts';
import { renderReportArticle, renderReportPage, renderReportsPage } from '../../src/page/render-report-page.tsx';
import { buildFullReport, buildReport } from '../core/report/build-report.ts';
import { reportOf, samples } from './report-of.ts';

const policyOf = (html: string): string => /Content-Security-Policy" content="([^"]+)"/.exec(html)![1]!;
/** Text of the page without its markup. */
const textOf = (html: string): string =>
  html
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

describe('renderReportPage', () => {
  it('needs the JSON alone, and gives the same bytes every time', () => {
    for (const sample of samples) {
      const report = reportOf(sample);
      const html = renderReportPage(report);
      expect(renderReportPage(JSON.parse(formatJson([report])))).toBe(html);
      expect(renderReportPage(report)).toBe(html);
    }
  });

  it('allows its one style by hash and nothing else', () => {
    const html = renderReportPage(reportOf('heel-low'));
    const style = /<style>(.*?)<\/style>/s.exec(html)![1]!;
    const hash = createHash('sha256').update(style).digest('base64');
    expect(policyOf(html).replaceAll('&#39;', "'")).toBe(
      `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`,
    );
    expect(html).not.toMatch(/<script|<link|<img|<iframe|<form|\son[a-z]+=|\sstyle=|url\((?!#)|@import/);
    expect(html.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|src=/);
  });

  it('says what was found, how much could be checked, and which marker, how far and which way', () => {
    const text = textOf(renderReportPage(reportOf('heel-low')));
    for (const said of [
      '1 step to do before walking.',
      '49 of 51 checks could be made.',
      "the patient's left heel marker",
      '11 mm up, away from the sole',
      "Seen from the patient's left",
    ])
      expect(text).toContain(said);
    expect(text.indexOf('heel marker')).toBeLessThan(text.indexOf('four sides'));
  });

  it('shows the code of the subject and the start of the hash, and the name of no file', () => {
    const path = '/captures/Anna Example/Anna Example 01.c3d';
    const report: Report = {
      ...buildFullReport(),
      trial: { ...buildReport().trial, path },
      problems: [
        {
          code: 'file-unreadable',
          severity: 'error',
          markers: [],
          message: `Cannot open ${path}: Anna Example 01.c3d is gone.`,
          remedy: '',
        },
      ],
    };
    const html = renderReportPage(report);
    expect(html).toContain('P-017');
    expect(html).toContain('trial a1a1a1a1');
    expect(html).not.toContain('a1a1a1a1a');
    expect(html).not.toMatch(/Anna|captures|\.c3d/);
    const named = renderReportPage(report, { showNames: true });
    expect(named).toContain('Anna Example 01.c3d');
  });

  it('has another shape for each verdict', () => {
    const mark = (verdict: Report['verdict']) =>
      /<svg class="mark"[^>]*aria-label="([^"]+)"><(circle|path|rect)/
        .exec(renderReportPage({ ...reportOf('heel-low'), verdict }))!
        .slice(1);
    expect(mark('adjust')).toEqual(['To do', 'path']);
    expect(mark('ready')).toEqual(['Ready', 'circle']);
    expect(mark('not-assessable')).toEqual(['Cannot be judged', 'rect']);
  });

  it('keeps hostile text text', () => {
    const evil = '"><script>alert(1)</script><img src=x onerror=alert(1)>&amp;\u202e\u0000\u001b[31m`\'</style>';
    const poison = (value: unknown): unknown => {
      if (typeof value === 'string') return `${value}${evil}`;
      if (Array.isArray(value)) return value.map(poison);
      if (typeof value !== 'object' || value === null) return value;
      return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, poison(item)]));
    };
    const closed = new Set(['format', 'verdict', 'status', 'severity', 'action', 'unit', 'basis']);
    const clean = (value: unknown, original: unknown): unknown => {
      if (typeof value !== 'object' || value === null) return value;
      if (Array.isArray(value)) return value.map((item, i) => clean(item, (original as unknown[])[i]));
      return Object.fromEntries(
        Object.entries(value).map(([key, item]) => {
          const was = (original as Record<string, unknown>)[key];
          return [key, closed.has(key) || key === 'side' ? was : clean(item, was)];
        }),
      );
    };
    for (const report of [reportOf('heel-low'), reportOf('epicondyles-swapped'), buildFullReport()]) {
      const markers = { ...report.markers, [`R_GT${evil}`]: Object.values(report.markers)[0]! };
      const hostile = clean(poison({ ...report, markers }), { ...report, markers }) as Report;
      const html = renderReportPage(hostile, { showNames: true });
      expect(html.match(/<(script|img|\/style)/g)).toEqual(['</style']);
      expect(html.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
      expect(html).toContain('&lt;script');
    }
  });

  it('draws a marker called __proto__ and survives one called constructor', () => {
    const report = reportOf('heel-low');
    const odd = Object.values(report.markers)[0]!;
    const markers = JSON.parse(`{"__proto__": ${JSON.stringify(odd)}, "constructor": ${JSON.stringify(odd)}}`);
    const html = renderReportPage({
      ...report,
      markers,
      figure: { joins: [['__proto__', 'constructor']], segments: [] },
    });
    expect(html.match(/class="dot/g)!.length).toBeGreaterThan(7);
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  it('says why a trial cannot be judged', () => {
    const report: Report = {
      ...buildReport(),
      verdict: 'not-assessable',
      coverage: { rules: 3, assessed: 0, essentialNotAssessed: [], unseen: [] },
      trial: { path: 'x.c3d', sha256: '', frames: null, rateHz: null, units: null, vertical: null, window: null },
      bodyAxes: null,
      markers: {},
      figure: null,
      sway: null,
      rules: buildReport().rules.map((rule) => ({
        ...rule,
        status: 'not-assessed',
        value: null,
        says: '',
        reason: 'nothing could be judged in this trial',
      })),
      problems: [
        {
          code: 'file-unreadable',
          severity: 'error',
          markers: [],
          message: 'The file is empty',
          remedy: 'Capture again',
        },
      ],
    };
    const text = textOf(renderReportPage(report));
    expect(text).toContain('This trial cannot be judged: the file cannot be read. 0 of 3 checks could be made.');
    expect(text).toContain('The file is empty. Capture again.');
    expect(text).toContain('Every check (3 checks).');
    expect(text).not.toContain('four sides');
  });
});

describe('what every page has', () => {
  it.each(samples)(
    '%s: one h1, headings without gaps, ids once, every reference answered, every picture named',
    (sample) => {
      const html = renderReportPage(reportOf(sample));
      expect(html.match(/<h1/g)).toHaveLength(1);
      const levels = [...html.matchAll(/<h([1-6])/g)].map((match) => Number(match[1]));
      levels.forEach((level, index) => {
        expect(level).toBeLessThanOrEqual((levels[index - 1] ?? 0) + 1);
      });
      const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]!);
      expect(new Set(ids).size).toBe(ids.length);
      const referred = [...html.matchAll(/aria-labelledby="([^"]+)"/g)].flatMap((match) => match[1]!.split(' '));
      expect(referred.filter((id) => !ids.includes(id))).toEqual([]);
      const pictures = html.match(/<svg[^>]*>/g)!;
      expect(pictures.filter((svg) => !/aria-hidden="true"|aria-labelledby=|aria-label=/.test(svg))).toEqual([]);
      expect(html).not.toMatch(/NaN|Infinity|undefined|\bnull\b/);
    },
  );
});

describe('renderReportsPage', () => {
  it('puts a short list above the reports, with ids of their own', () => {
    const html = renderReportsPage([reportOf('heel-low'), reportOf('adult-well-placed')]);
    expect(textOf(html)).toMatch(
      /2 trials .*1 step to do before walking\. First: the patient's left heel marker\. .*Nothing found\./,
    );
    expect(html).toContain('href="#report-2"');
    expect(html).toContain('<article class="report" id="report-2"');
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]!);
    expect(new Set(ids).size).toBe(ids.length);
    expect(html.match(/<h1/g)).toHaveLength(1);
  });
});

describe('renderReportArticle', () => {
  it('is the report of the page without the page', () => {
    const report = reportOf('heel-low');
    const article = renderReportArticle(report, 'report-1');
    expect(article.startsWith('<article')).toBe(true);
    expect(renderReportPage(report)).toContain(article);
  });
});
