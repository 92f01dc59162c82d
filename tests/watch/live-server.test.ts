import { once } from 'node:events';
import { type ClientRequest, type IncomingMessage, request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { systemClock } from '../../src/watch/clock.ts';
import { EventStream } from '../../src/watch/event-stream.ts';
import { type LiveServer, startLiveServer } from '../../src/watch/live-server.ts';

const content = {
  page: () => '<!doctype html><title>page</title>',
  live: () => '<p>live</p>',
  capture: (number: number) => (number === 3 ? { html: '<p>three</p>', policy: "default-src 'none'" } : null),
  script: 'script',
  style: 'style',
};

let events: EventStream;
let server: LiveServer;
beforeEach(async () => {
  events = new EventStream(systemClock, { revision: 7 });
  server = await startLiveServer(0, content, events);
});
afterEach(() => server.close());

interface Answer {
  readonly status: number | undefined;
  readonly headers: IncomingMessage['headers'];
  readonly body: string;
}

async function ask(path: string, options: { method?: string; headers?: Record<string, string>; body?: string } = {}) {
  const { body, ...rest } = options;
  const asked = request({ host: '127.0.0.1', port: server.port, path, ...rest });
  asked.end(body);
  const [response] = (await once(asked, 'response')) as [IncomingMessage];
  let text = '';
  for await (const piece of response.setEncoding('utf8')) text += piece;
  return { status: response.statusCode, headers: response.headers, body: text } satisfies Answer;
}

describe('the live server', () => {
  it.each([
    ['/', 'text/html; charset=utf-8', '<!doctype html><title>page</title>'],
    ['/live', 'text/html; charset=utf-8', '<p>live</p>'],
    ['/live-page.js', 'text/javascript; charset=utf-8', 'script'],
    ['/live-page.css', 'text/css; charset=utf-8', 'style'],
  ])('answers %s', async (path, type, body) => {
    const answer = await ask(path);
    expect([answer.status, answer.headers['content-type'], answer.body]).toEqual([200, type, body]);
    expect(answer.headers).toMatchObject({
      'content-security-policy': expect.stringContaining("default-src 'none'; script-src 'self'; style-src 'self'"),
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'cross-origin-resource-policy': 'same-origin',
      'cache-control': 'no-store',
    });
    expect(answer.headers['access-control-allow-origin']).toBeUndefined();
  });

  it('shows a capture with the policy of its own page, and says where there is none', async () => {
    const three = await ask('/capture/3');
    expect([three.body, three.headers['content-security-policy']]).toEqual(['<p>three</p>', "default-src 'none'"]);
    expect((await ask('/capture/4')).status).toBe(404);
  });

  it('refuses another host, another site, every way of writing and every other path', async () => {
    expect((await ask('/', { headers: { host: 'evil.example' } })).status).toBe(403);
    expect((await ask('/live', { headers: { origin: 'http://evil.example' } })).status).toBe(403);
    const posted = await ask('/', { method: 'POST', body: 'x'.repeat(100_000) });
    expect([posted.status, posted.headers.allow]).toEqual([405, 'GET']);
    expect((await ask('/../../etc/passwd')).status).toBe(404);
    expect((await ask('/../../etc/passwd')).headers['content-security-policy']).toBeDefined();
  });

  it('pushes what changes', async () => {
    const asked: ClientRequest = request({ host: '127.0.0.1', port: server.port, path: '/events' });
    asked.end();
    const [response] = (await once(asked, 'response')) as [IncomingMessage];
    response.setEncoding('utf8');
    const [first] = await once(response, 'data');
    expect([response.headers['content-type'], first]).toEqual([
      'text/event-stream; charset=utf-8',
      'retry: 1000\n\nevent: state\ndata: {"revision":7}\n\n',
    ]);
    events.send({ revision: 8 });
    expect(String(await once(response, 'data'))).toBe('event: state\ndata: {"revision":8}\n\n');
    await server.close();
    await once(response, 'close');
  });

  it('is not reached from another address of this machine', async () => {
    const other = Object.values(networkInterfaces())
      .flat()
      .find((one) => one && !one.internal && one.family === 'IPv4');
    const host = other?.address ?? '127.0.0.2';
    const socket = connect({ host, port: server.port });
    const outcome = await Promise.race([
      once(socket, 'connect').then(() => 'connected'),
      once(socket, 'error').then(() => 'refused'),
    ]).catch(() => 'refused');
    socket.destroy();
    expect(outcome).toBe('refused');
  });

  it('says so where its port is taken', async () => {
    await expect(startLiveServer(server.port, content, events)).rejects.toThrow(
      `Port ${server.port} is in use by another program; name another one with --port, or leave it out.`,
    );
  });

  it('is gone when it is closed', async () => {
    await server.close();
    await expect(ask('/')).rejects.toThrow('ECONNREFUSED');
    server = await startLiveServer(0, content, new EventStream(systemClock, {}));
  });
});
