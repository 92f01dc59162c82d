import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { closeServer, listenLocally } from '../node/listen-locally.ts';
import { securityHeaders } from '../node/local-caller.ts';
import type { EventStream } from './event-stream.ts';
import { judgeRequest } from './judge-request.ts';

/** What the server shows. Everything is made anew for each request. */
export interface LiveContent {
  page(): string;
  /** What changes on the page, as HTML. */
  live(): string;
  /** The report of a capture as a page of its own, with the policy its style asks for; null where there is none. */
  capture(number: number): { readonly html: string; readonly policy: string } | null;
  readonly script: string;
  readonly style: string;
}

export interface LiveServer {
  readonly port: number;
  close(): Promise<void>;
}

/**
 * Serves the live page on 127.0.0.1.
 * @param port 0 for any that is free
 * @throws {InputError} where it cannot listen.
 */
export async function startLiveServer(port: number, content: LiveContent, events: EventStream): Promise<LiveServer> {
  const server = createServer((request, response) => {
    answer(request, response, (server.address() as AddressInfo).port, content, events);
  });
  return {
    port: await listenLocally(server, port),
    async close() {
      events.close();
      await closeServer(server);
    },
  };
}

function answer(
  request: IncomingMessage,
  response: ServerResponse,
  port: number,
  content: LiveContent,
  events: EventStream,
): void {
  const { method = '', url = '', headers } = request;
  // Nobody sends anything here: what comes is dropped unread.
  request.resume();
  const route = judgeRequest({ method, url, headers }, port);
  const send = (status: number, type: string, body: string, more: Record<string, string> = {}) => {
    response.writeHead(status, { ...securityHeaders, 'content-type': `${type}; charset=utf-8`, ...more }).end(body);
  };
  switch (route.kind) {
    case 'page':
      send(200, 'text/html', content.page());
      break;
    case 'live':
      send(200, 'text/html', content.live());
      break;
    case 'script':
      send(200, 'text/javascript', content.script);
      break;
    case 'style':
      send(200, 'text/css', content.style);
      break;
    case 'events':
      if (events.hasRoom) listenTo(events, response);
      else send(503, 'text/plain', 'Too many pages are open; close some.\n');
      break;
    case 'capture': {
      const capture = content.capture(route.number);
      if (capture === null) send(404, 'text/plain', 'This capture is not kept.\n');
      else send(200, 'text/html', capture.html, { 'content-security-policy': capture.policy });
      break;
    }
    case 'refused':
      send(route.status, 'text/plain', `${route.says}\n`, route.status === 405 ? { allow: 'GET' } : {});
  }
}

function listenTo(events: EventStream, response: ServerResponse): void {
  response.writeHead(200, { ...securityHeaders, 'content-type': 'text/event-stream; charset=utf-8' });
  events.add(response);
}
