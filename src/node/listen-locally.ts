import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { InputError } from './input-error.ts';

/** Only this machine reaches it. */
const address = '127.0.0.1';

/**
 * Starts a server on 127.0.0.1, which gives up on whoever is slow to ask. Returns its port.
 * @param port 0 for any that is free
 * @throws {InputError} where it cannot listen.
 */
export async function listenLocally(server: Server, port: number): Promise<number> {
  server.headersTimeout = 5000;
  server.requestTimeout = 5000;
  server.maxHeadersCount = 60;
  await new Promise<void>((done, refuse) => {
    server.once('error', (error) => refuse(cannotListen(port, error)));
    server.listen(port, address, done);
  });
  return (server.address() as AddressInfo).port;
}

export async function closeServer(server: Server): Promise<void> {
  const closed = new Promise((done) => server.close(done));
  server.closeAllConnections();
  await closed;
}

function cannotListen(port: number, error: Error): InputError {
  const code = 'code' in error ? String(error.code) : error.message;
  const found =
    code === 'EADDRINUSE'
      ? `Port ${port} is in use by another program`
      : code === 'EACCES'
        ? `Port ${port} is not open to programs of this user`
        : `Cannot listen on port ${port} (${code})`;
  return new InputError(found, 'name another one with --port, or leave it out', { cause: error });
}
