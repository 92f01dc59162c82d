import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type SiteServer, startSiteServer } from '../../src/node/site-server.ts';

let folder: string;
let server: SiteServer | null = null;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  mkdirSync(join(folder, 'site/assets'), { recursive: true });
  writeFileSync(join(folder, 'secret.json'), '"secret"');
  writeFileSync(join(folder, 'site/index.html'), '<p>page');
  writeFileSync(join(folder, 'site/assets/main.js'), 'export {};');
  writeFileSync(join(folder, 'site/notes.txt'), 'not of the site');
});
afterEach(async () => {
  await server?.close();
  server = null;
  rmSync(folder, { recursive: true, force: true });
});

async function start(): Promise<SiteServer> {
  server = await startSiteServer(join(folder, 'site'), 0);
  return server;
}

/** Sends a path as it is: no client tidies the dots away. */
function ask(port: number, path: string, headers: Record<string, string> = {}, method = 'GET') {
  return new Promise<{ status: number; body: string; headers: Record<string, unknown> }>((done, fail) => {
    const sent = request({ host: '127.0.0.1', port, path, method, headers, agent: false }, (response) => {
      let body = '';
      response.setEncoding('utf8').on('data', (part) => {
        body += part;
      });
      response.on('end', () => done({ status: response.statusCode!, body, headers: response.headers }));
    });
    sent.on('error', fail).end();
  });
}

describe('startSiteServer', () => {
  it('hands out the files of the folder, each as what it is, under a strict policy', async () => {
    const { port } = await start();
    const page = await ask(port, '/');
    expect(page).toMatchObject({ status: 200, body: '<p>page' });
    expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(page.headers['content-security-policy']).toMatch(/^default-src 'none'; script-src 'self';/);
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    const script = await ask(port, '/assets/main.js');
    expect(script).toMatchObject({ status: 200, body: 'export {};' });
    expect(script.headers['content-type']).toBe('text/javascript; charset=utf-8');
  });

  it.each([
    '/../secret.json',
    '/assets/../../secret.json',
    '/%2e%2e/secret.json',
    '//secret.json',
    '/link.json',
    '/notes.txt',
    '/assets',
    '/?x',
    '/__proto__',
  ])('has nothing at %s', async (path) => {
    symlinkSync(join(folder, 'secret.json'), join(folder, 'site/link.json'));
    const { port } = await start();
    const answer = await ask(port, path);
    expect(answer.status).toBe(404);
    expect(answer.body).not.toContain('secret');
    expect(answer.headers['content-security-policy']).toBeDefined();
  });

  it('answers nobody who comes under another name or from another site, and takes nothing', async () => {
    const { port } = await start();
    expect((await ask(port, '/', { host: `evil.example:${port}` })).status).toBe(403);
    expect((await ask(port, '/', { origin: 'http://evil.example' })).status).toBe(403);
    expect((await ask(port, '/', { 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    expect((await ask(port, '/', {}, 'POST')).status).toBe(405);
    expect((await ask(port, '/', { host: `localhost:${port}` })).status).toBe(200);
  });

  it('says what to do where there is no page, and where the port is taken', async () => {
    await expect(startSiteServer(join(folder, 'none'), 0)).rejects.toThrow('not part of this installation');
    const { port } = await start();
    await expect(startSiteServer(join(folder, 'site'), port)).rejects.toThrow(`Port ${port} is in use`);
  });
});
