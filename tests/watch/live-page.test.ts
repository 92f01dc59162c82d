import { describe, expect, it } from 'vitest';
import { displace } from '../../sample-trials/plant-fault.ts';
import { addCapture, type Captures } from '../../src/core/captures/capture-session.ts';
import type { Report } from '../../src/core/report/report.ts';
import { renderLive, renderLivePage } from '../../src/watch/live-page/live-page.tsx';
import { liveStyle } from '../../src/watch/live-page/live-style.ts';
import type { LiveView } from '../../src/watch/live-page/live-view.ts';
import type { WatchState } from '../../src/watch/trial-watch.ts';
import { placedByHand } from '../support/ordinary-people.ts';
import { standsAgain } from '../support/stand-again.ts';
import { checkPositions } from '../support/still-trial.ts';

let hashes = 0;
function heelAt(time: number, up: number): Report {
  return hashed(checkPositions(displace(standsAgain(3, time), 'L_HEEL', { up })));
}

function hashed(report: Report): Report {
  hashes += 1;
  return { ...report, trial: { ...report.trial, sha256: hashes.toString(16).padStart(64, 'a') } };
}

function viewOf(reports: readonly Report[], state: Partial<WatchState> = {}, rest: Partial<LiveView> = {}): LiveView {
  const captures = reports.reduce<Captures>(
    (all, report, index) => addCapture(all, `/lab/Anna Example/static ${index + 1}.c3d`, report).captures,
    [],
  );
  return {
    state: { captures, folder: 'there', coming: 0, leftAlone: 0, passedOver: 0, locked: 0, ...state },
    revision: 5,
    run: 'run',
    times: new Map([[1, '14:02']]),
    names: ['*static*.c3d'],
    showNames: false,
    ...rest,
  };
}

/** What a reader sees, without tags. */
const textOf = (html: string) =>
  html
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .replaceAll('&#39;', "'");

describe('the live page', () => {
  it('waits in so many words', () => {
    const text = textOf(renderLive(viewOf([], { leftAlone: 3, passedOver: 1 })));
    expect(text).toContain('No standing trial yet');
    expect(text).toContain('Watched for: *static*.c3d.');
    expect(text).toContain('3 trials that were there before are left alone.');
    expect(text).toContain('1 trial of another name passed over.');
  });

  it.each([
    [{ folder: 'missing' }, 'The folder is not there: waiting for it'],
    [{ locked: 1, coming: 1 }, 'A trial is kept by another program: waiting for it'],
    [{ coming: 2 }, 'A trial is coming'],
    [{}, 'Waiting for the next standing trial'],
  ] as const)('says what it is doing: %o', (state, says) => {
    expect(textOf(renderLive(viewOf([heelAt(0, -20)], state)))).toContain(says);
  });

  it('shows the newest trial, what became of the steps before, and all captures', () => {
    const text = textOf(renderLive(viewOf([heelAt(0, -20), heelAt(1, -14)])));
    expect(text).toContain('Capture 2 · 1 correction so far');
    expect(text).toContain('Since capture 1 L_HEEL, left heel marker moved 6 mm up of the 20 mm asked; 14 mm remain');
    expect(text).toContain('The check still fails.');
    expect(text).toContain("the patient's left heel marker");
    expect(text.indexOf('Since capture 1')).toBeLessThan(text.indexOf('to do before walking'));
    expect(text).toMatch(/Captures of this session 2 to do .* 1 to do .* 14:02/);
    expect(text).not.toContain('stop here');
  });

  it('says stop after two corrections, unless nothing is left to do', () => {
    const twice = [heelAt(0, -20), heelAt(1, -16), heelAt(2, -12)];
    expect(textOf(renderLive(viewOf(twice)))).toContain('2 corrections made: stop here Offer the chair');
    expect(textOf(renderLive(viewOf([...twice.slice(0, 2), heelAt(3, 0)])))).not.toContain('stop here');
  });

  it('says that another patient is another patient', () => {
    const view = viewOf([heelAt(0, -20), hashed(checkPositions(placedByHand(11)))]);
    expect(textOf(renderLive(view))).toContain('taken as another patient');
  });

  it('names no file and no folder unless asked to', () => {
    const reports = [heelAt(0, -20), heelAt(1, -14)];
    expect(renderLivePage(viewOf(reports))).not.toMatch(/Anna|static \d/);
    expect(renderLivePage(viewOf(reports, {}, { showNames: true }))).toMatch(/Capture 2 · static 2\.c3d/);
    expect(renderLivePage(viewOf(reports, {}, { showNames: true }))).not.toContain('Anna');
  });

  it('keeps what is hostile as text', () => {
    const report = heelAt(0, -20);
    const hostile = '<img src=x onerror=alert(1)>"\u202e';
    const view = viewOf(
      [{ ...report, moves: report.moves.map((move) => ({ ...move, called: hostile })) }, heelAt(1, -14)],
      {},
      { names: [hostile], showNames: true },
    );
    for (const html of [renderLivePage(view), renderLivePage(viewOf([], {}, { names: [hostile] }))]) {
      expect(html).not.toMatch(/<img|\u202e/);
      expect(html).toContain('&lt;img src=x');
    }
  });

  it('needs no script, no style and no request but its own', () => {
    const html = renderLivePage(viewOf([heelAt(0, -20), heelAt(1, -14)]));
    expect(html).not.toMatch(/ on[a-z]+=|<script>|<style|style="|https?:\/\//);
    expect(
      html.match(/(?:src|href)="[^"]*"/g)!.filter((link) => !/"(#|\/capture\/\d+"|\/live-page\.)/.test(link)),
    ).toEqual([]);
    expect(liveStyle).not.toMatch(/url\((?!#)|@import/);
  });
});
