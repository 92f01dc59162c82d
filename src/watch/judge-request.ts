import { type AskedFor, type Refused, refused, refuseStranger } from '../node/local-caller.ts';

export type Route =
  | { readonly kind: 'page' | 'live' | 'events' | 'script' | 'style' }
  /** The whole report of one capture, by its number. */
  | { readonly kind: 'capture'; readonly number: number }
  | Refused;

const routes: ReadonlyMap<string, Route> = new Map([
  ['/', { kind: 'page' }],
  ['/live', { kind: 'live' }],
  ['/events', { kind: 'events' }],
  ['/live-page.js', { kind: 'script' }],
  ['/live-page.css', { kind: 'style' }],
]);

/**
 * What a request gets. There are a handful of addresses and no files behind them, so that no path leads anywhere else.
 */
export function judgeRequest(request: AskedFor, port: number): Route {
  const stranger = refuseStranger(request, port);
  if (stranger !== null) return stranger;
  const { url } = request;
  const capture = /^\/capture\/([1-9][0-9]{0,6})$/.exec(url);
  if (capture !== null) return { kind: 'capture', number: Number(capture[1]) };
  return routes.get(url) ?? refused(404, 'There is nothing at this address.');
}
