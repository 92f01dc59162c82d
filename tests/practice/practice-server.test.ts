import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeSession } from '../../src/core/practice/draw-session.ts';
import type { HistoryLine } from '../../src/core/practice/history.ts';
import { PracticeRun } from '../../src/core/practice/practice-run.ts';
import { type PracticeServer, startPracticeServer } from '../../src/practice/practice-server.ts';
import { begunSession, workshop } from '../support/practice-workshop.ts';
import { wands22 } from '../support/shipped-marker-sets.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const trials = makeSession(workshop, 21, 4, () => 1);

describe('the practice that is served', () => {
  let server: PracticeServer;
  let token: string;
  let kept: HistoryLine[];
  let isFull = false;
  beforeAll(async () => {
    kept = [];
    const first = new PracticeRun({ set: wands22, trials, begun: begunSession(21, 4), before: [] }, (line) => {
      if (isFull) throw new Error('Cannot write the practice history: the disk is full.');
      kept.push(line);
    });
    server = await startPracticeServer(join(root, 'dist/page'), 0, {
      first,
      begin: () => Promise.reject(new Error('not asked for')),
      record: () => Promise.reject(new Error('nothing is kept')),
      signOff: () => Promise.reject(new Error('nothing is kept')),
      now: () => '2026-11-25T10:00:00+00:00',
    });
    token = new URL(server.address).hash.replace('#practice=', '');
  });
  afterAll(() => server.close());

  const at = (path: string) => `http://127.0.0.1:${server.port}/practice/${path}`;
  const own = () => ({ 'x-setsquare-token': token, origin: `http://127.0.0.1:${server.port}` });
  const answer = (body: object, headers: Record<string, string> = own()) =>
    fetch(at('answer'), {
      method: 'POST',
      body: JSON.stringify(body),
      headers: { 'content-type': 'application/json', ...headers },
    });

  it('hands out the figure alone', async () => {
    const text = await (await fetch(at('trial'), { headers: own() })).text();
    const { trial } = JSON.parse(text);
    expect(Object.keys(trial).sort()).toEqual(['choices', 'figure', 'number', 'of']);
    const { key, id } = trials[0]!;
    expect(text).not.toContain(id);
    expect(text).not.toMatch(/expected|accepted|verdict|"moves"|"rules"|planted|sha256/);
    expect(key.basis).toBe('planted');
  });

  it.each([
    ['no token', {}, 403],
    ['another token', { 'x-setsquare-token': '0'.repeat(32) }, 403],
    ['another site', { origin: 'http://elsewhere.example' }, 403],
  ])('takes no verdict with %s', async (_, headers, status) => {
    const sent = 'origin' in headers ? { ...own(), ...headers } : { origin: own().origin, ...headers };
    expect((await answer({ number: 1, written: [] }, sent as Record<string, string>)).status).toBe(status);
    expect(kept).toEqual([]);
  });

  it.each([
    [{ number: 2, written: [] }, 409],
    [{ number: 1, written: [{ marker: 'NOBODY', way: 'up', mm: 3 }] }, 400],
    [{ number: 1, written: [{ marker: 'L_HEEL', way: 'up', mm: 3000 }] }, 400],
    [{ number: 1, written: 'x'.repeat(20_000) }, 413],
    [{}, 400],
  ])('tells nothing for %o', async (body, status) => {
    const response = await answer(body);
    expect(response.status).toBe(status);
    expect(Object.keys(await response.json())).toEqual(['refused']);
    expect(kept).toEqual([]);
  });

  it('tells nothing while the verdict cannot be kept', async () => {
    isFull = true;
    const response = await answer({ number: 1, written: [] });
    isFull = false;
    expect([response.status, await response.json()]).toEqual([
      409,
      { refused: 'Cannot write the practice history: the disk is full.' },
    ]);
  });

  it('tells what is right once it is kept, and only once', async () => {
    const told = await (await answer({ number: 1, written: [] })).json();
    expect(told.feedback.truth).toHaveLength(1);
    expect(kept.map(({ kind }) => kind)).toEqual(['session', 'answer']);
    expect(Object.keys(told.next).sort()).toEqual(['choices', 'figure', 'number', 'of']);
    expect((await answer({ number: 1, written: [] })).status).toBe(409);
    expect(kept).toHaveLength(2);
  });
});
