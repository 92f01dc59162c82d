import { readdir, readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, relative, sep } from 'node:path';
import { InputError } from './input-error.ts';
import { closeServer, listenLocally } from './listen-locally.ts';
import { refused, refuseStranger, securityHeaders } from './local-caller.ts';

export interface SiteServer {
  readonly port: number;
  close(): Promise<void>;
}

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
};

/** Answers a request that is not for a file; false for one that is not its own. */
export type OwnRoutes = (request: IncomingMessage, response: ServerResponse, port: number) => boolean;

/**
 * Serves a folder of plain files on 127.0.0.1. They are read once, by name; a request picks one of these or gets
 * nothing, so that no path leads to any other file.
 * @param port 0 for any that is free
 * @param own is asked first
 * @throws {InputError} where the folder holds no page, or the port cannot be had.
 */
export async function startSiteServer(folder: string, port: number, own?: OwnRoutes): Promise<SiteServer> {
  const files = await readSite(folder);
  const server = createServer((request, response) => {
    const { port: listening } = server.address() as AddressInfo;
    if (own?.(request, response, listening) !== true) answer(request, response, listening, files);
  });
  return { port: await listenLocally(server, port), close: () => closeServer(server) };
}

async function readSite(folder: string): Promise<ReadonlyMap<string, Buffer>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  const files = new Map<string, Buffer>();
  for (const entry of entries) {
    const path = join(entry.parentPath, entry.name);
    if (!entry.isFile() || types[extname(path)] === undefined) continue;
    files.set(`/${relative(folder, path).split(sep).join('/')}`, await readFile(path));
  }
  const start = files.get('/index.html');
  if (start === undefined)
    throw new InputError('The page is not part of this installation', 'install the package again');
  return files.set('/', start);
}

function answer(
  request: IncomingMessage,
  response: ServerResponse,
  port: number,
  files: ReadonlyMap<string, Buffer>,
): void {
  const { method = '', url = '', headers } = request;
  // Nobody sends anything here: what comes is dropped unread.
  request.resume();
  const body = files.get(url);
  const refusal =
    refuseStranger({ method, url, headers }, port) ??
    (body === undefined ? refused(404, 'There is nothing at this address.') : null);
  if (refusal !== null) {
    const allow = refusal.status === 405 ? { allow: 'GET' } : {};
    response.writeHead(refusal.status, { ...securityHeaders, 'content-type': 'text/plain; charset=utf-8', ...allow });
    response.end(`${refusal.says}\n`);
    return;
  }
  const type = types[extname(url === '/' ? '/index.html' : url)]!;
  response.writeHead(200, { ...securityHeaders, 'content-type': type, 'content-length': body!.length }).end(body);
}
