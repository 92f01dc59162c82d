/** A request, as far as it is judged. Header names in lower case. */
export interface AskedFor {
  readonly method: string;
  /** Path and query as they were sent. */
  readonly url: string;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
}

export type Route =
  | { readonly kind: 'page' | 'live' | 'events' | 'script' | 'style' }
  /** The whole report of one capture, by its number. */
  | { readonly kind: 'capture'; readonly number: number }
  | { readonly kind: 'refused'; readonly status: 403 | 404 | 405; readonly says: string };

const routes: ReadonlyMap<string, Route> = new Map([
  ['/', { kind: 'page' }],
  ['/live', { kind: 'live' }],
  ['/events', { kind: 'events' }],
  ['/live-page.js', { kind: 'script' }],
  ['/live-page.css', { kind: 'style' }],
]);

/**
 * What a request gets. There are a handful of addresses and no files behind them, so that no path leads anywhere else.
 *
 * Only this machine's own browser is answered: another site whose name was made to lead here (its name is then in Host),
 * or whose page asks in the background (Origin, Sec-Fetch-Site), is refused before anything is looked up.
 */
export function judgeRequest({ method, url, headers }: AskedFor, port: number): Route {
  const own = [`127.0.0.1:${port}`, `localhost:${port}`];
  const { host, origin } = headers;
  if (typeof host !== 'string' || !own.includes(host.toLowerCase())) {
    return refused(403, 'This page answers to 127.0.0.1 only.');
  }
  if (origin !== undefined && (typeof origin !== 'string' || !own.some((name) => origin === `http://${name}`))) {
    return refused(403, 'This page does not answer to other sites.');
  }
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') {
    return refused(403, 'This page does not answer to other sites.');
  }
  if (method !== 'GET') return refused(405, 'This page can only be read.');
  const capture = /^\/capture\/([1-9][0-9]{0,6})$/.exec(url);
  if (capture !== null) return { kind: 'capture', number: Number(capture[1]) };
  return routes.get(url) ?? refused(404, 'There is nothing at this address.');
}

function refused(status: 403 | 404 | 405, says: string): Route {
  return { kind: 'refused', status, says };
}

/** Sent with every answer: nothing from elsewhere, nothing inside other pages, nothing kept, nothing guessed. */
export const securityHeaders: Readonly<Record<string, string>> = {
  'content-security-policy':
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), microphone=(), geolocation=(), clipboard-read=()',
  'cache-control': 'no-store',
};
