import { randomBytes } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { isNamedMove } from '../core/practice/history.ts';
import type { PracticeRun } from '../core/practice/practice-run.ts';
import type { WrittenVerdict } from '../core/practice/score-verdict.ts';
import { type ShownTrial, showTrial, type ToldTrial, tellTrial } from '../core/practice/shown-trial.ts';
import { type Refused, refused, securityHeaders } from '../node/local-caller.ts';
import { type SiteServer, startSiteServer } from '../node/site-server.ts';
import { judgePracticeRequest } from './judge-practice-request.ts';

export interface PracticeServer extends SiteServer {
  /** With what opens the practice; whoever else is on this machine does not know it. */
  readonly address: string;
}

export interface PracticeRounds {
  /** The session that waits. */
  readonly first: PracticeRun;
  /** Another one, drawn anew. */
  begin(): Promise<PracticeRun>;
  /** ISO day and time. */
  now(): string;
}

/** Several markers with their ways and distances are far shorter. */
const mostBodyBytes = 16 << 10;
/** Nobody moves more before the next capture. */
const mostMoves = 12;

/**
 * Serves the page with a practice session on 127.0.0.1. A figure goes out blinded; what is right is told only once a
 * verdict has come in and was kept.
 * @param port 0 for any that is free
 * @throws {InputError} where it cannot listen
 */
export async function startPracticeServer(site: string, port: number, rounds: PracticeRounds): Promise<PracticeServer> {
  const token = randomBytes(16).toString('hex');
  let run = rounds.first;
  let beginning: Promise<unknown> | null = null;

  const answer = async (request: IncomingMessage): Promise<ToldTrial | Refused> => {
    const body = await readBody(request);
    if (body === null) return refused(413, 'This is longer than any verdict.');
    const verdict = readVerdict(body);
    if (verdict === null) return refused(400, 'This is no verdict.');
    if (run.current === null || verdict.number !== run.answered + 1) {
      return refused(409, 'This trial was answered already, in another window perhaps; load the page again.');
    }
    try {
      return tellTrial(run, verdict.written, rounds.now());
    } catch (error) {
      if (error instanceof RangeError) return refused(400, error.message);
      throw error;
    }
  };
  const begin = async (): Promise<ShownTrial | null> => {
    // Two clicks begin one session.
    beginning ??= rounds.begin().then((begun) => {
      run = begun;
    });
    await beginning.finally(() => {
      beginning = null;
    });
    return showTrial(run);
  };

  const server = await startSiteServer(site, port, (request, response, listening) => {
    const { method = '', url = '', headers } = request;
    const route = judgePracticeRequest({ method, url, headers }, listening, token);
    if (route === null) return false;
    if (route.kind === 'refused') send(response, route);
    else if (route.kind === 'trial') send(response, { trial: showTrial(run) });
    else {
      const done = route.kind === 'answer' ? answer(request) : begin().then((trial) => ({ trial }));
      done.then(
        (told) => send(response, told),
        // The history could not be written, or the folder not be read: said, and the session goes on.
        (error: unknown) => send(response, refused(409, error instanceof Error ? error.message : String(error))),
      );
    }
    if (route.kind !== 'answer') request.resume();
    return true;
  });
  return { ...server, address: `http://127.0.0.1:${server.port}/#practice=${token}` };
}

function send(response: ServerResponse, body: object): void {
  const isRefusal = 'kind' in body && body.kind === 'refused';
  const [status, text] = isRefusal
    ? [(body as Refused).status, JSON.stringify({ refused: (body as Refused).says })]
    : [200, JSON.stringify(body)];
  response.writeHead(status, { ...securityHeaders, 'content-type': 'application/json; charset=utf-8' }).end(text);
}

async function readBody(request: IncomingMessage): Promise<string | null> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > mostBodyBytes) return null;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function readVerdict(body: string): { number: number; written: WrittenVerdict } | null {
  let data: unknown;
  try {
    data = JSON.parse(body);
  } catch {
    return null;
  }
  if (typeof data !== 'object' || data === null || !('number' in data) || !('written' in data)) return null;
  const { number, written } = data;
  const isWhole = typeof number === 'number' && Array.isArray(written) && written.length <= mostMoves;
  if (!isWhole || !written.every((move) => isNamedMove(move))) return null;
  const moves = written.map(({ marker, way, mm }) => ({ marker, way, mm }));
  return new Set(moves.map(({ marker }) => marker)).size === moves.length ? { number, written: moves } : null;
}
