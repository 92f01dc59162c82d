import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { securityHeaders } from '../../src/node/local-caller.ts';
import { judgeRequest } from '../../src/watch/judge-request.ts';

const port = 8123;
const own = { host: `127.0.0.1:${port}` };
const ask = (url: string, headers: Record<string, string> = {}, method = 'GET') =>
  judgeRequest({ method, url, headers: { ...own, ...headers } }, port);
const status = (route: ReturnType<typeof ask>) => (route.kind === 'refused' ? route.status : 200);

describe('a request', () => {
  it.each([
    ['/', 'page'],
    ['/live', 'live'],
    ['/events', 'events'],
    ['/live-page.js', 'script'],
    ['/live-page.css', 'style'],
  ])('for %s gets the %s', (url, kind) => {
    expect(ask(url)).toEqual({ kind });
    expect(ask(url, { host: `LOCALHOST:${port}`, origin: `http://localhost:${port}` })).toEqual({ kind });
    expect(ask(url, { 'sec-fetch-site': 'same-origin' })).toEqual({ kind });
    expect(ask(url, { 'sec-fetch-site': 'none' })).toEqual({ kind });
  });

  it('may name a capture by its number', () => {
    expect(ask('/capture/12')).toEqual({ kind: 'capture', number: 12 });
  });

  it.each([
    'evil.example',
    'evil.example:8123',
    '127.0.0.1',
    '127.0.0.1:8124',
    '127.0.0.1:8123.evil.example',
    '0.0.0.0:8123',
    '[::1]:8123',
    '',
  ])('that thinks this is %s is refused', (host) => {
    expect(status(ask('/', { host }))).toBe(403);
  });

  it('without a host is refused', () => {
    expect(judgeRequest({ method: 'GET', url: '/', headers: {} }, port)).toMatchObject({ status: 403 });
  });

  it.each(['http://evil.example', 'null', `https://127.0.0.1:${port}`, `http://127.0.0.1:${port}.evil.example`, ''])(
    'from the page of %s is refused',
    (origin) => {
      expect(status(ask('/live', { origin }))).toBe(403);
    },
  );

  it.each(['cross-site', 'same-site'])('that the browser calls %s is refused', (site) => {
    expect(status(ask('/', { 'sec-fetch-site': site }))).toBe(403);
  });

  it.each(['POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'HEAD', 'get'])('to %s is refused', (method) => {
    expect(status(ask('/', {}, method))).toBe(405);
  });

  it.each([
    '/../package.json',
    '/%2e%2e/package.json',
    '/..%2fpackage.json',
    '/live-page.js/..',
    '//127.0.0.1/',
    'http://127.0.0.1:8123/',
    '/?x=1',
    '/capture/0',
    '/capture/-1',
    '/capture/1/../2',
    '/capture/99999999',
    '/__proto__',
    '',
  ])('for %s finds nothing', (url) => {
    expect(status(ask(url))).toBe(404);
  });

  it('for anything else finds nothing', () => {
    fc.assert(
      fc.property(fc.string(), (rest) => {
        const route = ask(`/x${rest}`);
        expect(status(route)).toBe(404);
      }),
    );
  });
});

it('allows the page its own script and style, and nothing else', () => {
  const policy = securityHeaders['content-security-policy']!;
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain("frame-ancestors 'none'");
  expect(policy).not.toMatch(/unsafe|\*|https?:|data:/);
});
