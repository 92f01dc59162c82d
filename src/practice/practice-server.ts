import { randomBytes } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { isNamedMove } from '../core/practice/history.ts';
import type { PracticeRun } from '../core/practice/practice-run.ts';
import type { WrittenVerdict } from '../core/practice/score-verdict.ts';
import { type ShownTrial, showTrial, type ToldTrial, tellTrial } from '../core/practice/shown-trial.ts';
import type { WantedSignOff } from '../core/practice/sign-off-lines.ts';
import type { TraineeRecord } from '../core/practice/trainee-record.ts';
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
  /** Of whoever practises. @throws {Error} with a sentence where nothing is kept */
  record(): Promise<TraineeRecord>;
  /** Keeps a sign-off. @throws {Error} with a sentence where it cannot be signed so */
  signOff(signed: ServedSignOff): Promise<void>;
  /** ISO day and time. */
  now(): string;
}

/** Who practises and on what day is not for the page to say. */
export type ServedSignOff = Omit<WantedSignOff, 'trainee' | 'on'>;

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
  const signOff = async (request: IncomingMessage): Promise<object> => {
    const body = await readBody(request);
    const signed = body === null ? null : readSignOff(body);
    if (signed === null) return refused(400, 'This is no sign-off.');
    await rounds.signOff(signed);
    return { record: await rounds.record() };
  };

  const server = await startSiteServer(site, port, (request, response, listening) => {
    const { method = '', url = '', headers } = request;
    const route = judgePracticeRequest({ method, url, headers }, listening, token);
    if (route === null) return false;
    if (route.kind === 'refused') send(response, route);
    else if (route.kind === 'trial') send(response, { trial: showTrial(run) });
    else {
      const asked: Record<typeof route.kind, () => Promise<object>> = {
        answer: () => answer(request),
        begin: async () => ({ trial: await begin() }),
        record: async () => ({ record: await rounds.record() }),
        'sign-off': () => signOff(request),
      };
      asked[route.kind]().then(
        (told) => send(response, told),
        // The history could not be written, or the folder not be read: said, and the session goes on.
        (error: unknown) => send(response, refused(409, error instanceof Error ? error.message : String(error))),
      );
    }
    if (route.kind !== 'answer' && route.kind !== 'sign-off') request.resume();
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

function readSignOff(body: string): ServedSignOff | null {
  let data: unknown;
  try {
    data = JSON.parse(body);
  } catch {
    return null;
  }
  const { landmark, signer, due, reason } = (data ?? {}) as Record<string, unknown>;
  const texts = [landmark, signer, due, reason];
  if (!texts.every((text) => typeof text === 'string')) return null;
  return { landmarks: [landmark as string], signer: signer as string, due: due as string, reason: reason as string };
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
