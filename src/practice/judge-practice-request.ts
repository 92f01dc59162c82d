import { timingSafeEqual } from 'node:crypto';
import { type AskedFor, type Refused, refused, refuseStranger } from '../node/local-caller.ts';

export type PracticeRoute = { readonly kind: PracticeQuestion } | Refused;

export type PracticeQuestion = 'trial' | 'answer' | 'begin' | 'record' | 'sign-off';

/** Whoever opened the address that was printed has it. */
export const tokenHeader = 'x-setsquare-token';

const routes: ReadonlyMap<string, { readonly method: string; readonly kind: PracticeQuestion }> = new Map([
  ['/practice/trial', { method: 'GET', kind: 'trial' }],
  ['/practice/answer', { method: 'POST', kind: 'answer' }],
  ['/practice/begin', { method: 'POST', kind: 'begin' }],
  ['/practice/record', { method: 'GET', kind: 'record' }],
  ['/practice/sign-off', { method: 'POST', kind: 'sign-off' }],
]);

/**
 * What a request below /practice/ gets; null for one elsewhere. What is written into a history is taken from the page
 * that was opened by the printed address alone: its token, and for everything but reading its origin as well.
 */
export function judgePracticeRequest(request: AskedFor, port: number, token: string): PracticeRoute | null {
  const { url, method, headers } = request;
  if (!url.startsWith('/practice/')) return null;
  const stranger = refuseStranger(request, port, ['GET', 'POST']);
  if (stranger !== null) return stranger;
  const route = routes.get(url);
  if (route === undefined) return refused(404, 'There is nothing at this address.');
  if (!isToken(headers[tokenHeader], token)) {
    return refused(403, 'Open the address that setsquare printed: it holds what this page is asked for.');
  }
  if (method !== route.method) return refused(405, `This is asked by ${route.method}.`);
  if (method === 'POST') {
    if (headers.origin === undefined) return refused(403, 'This page does not answer to other sites.');
    if (headers['content-type'] !== 'application/json') return refused(400, 'What is sent here is JSON.');
  }
  return route;
}

function isToken(given: string | string[] | undefined, token: string): boolean {
  if (typeof given !== 'string') return false;
  const [a, b] = [Buffer.from(given), Buffer.from(token)];
  return a.length === b.length && timingSafeEqual(a, b);
}
