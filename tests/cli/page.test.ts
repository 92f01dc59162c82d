import { describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

describe('page', () => {
  it('prints an address, serves the page there, and ends with Ctrl-C', async () => {
    let press = () => {};
    let served: { status: number; body: string } | null = null;
    const ran = await runInProcess(['page', '--port', '0'], {
      onSigint: (given) => {
        press = given;
      },
      onWrite: (text) => {
        const address = /^http:\/\/127\.0\.0\.1:\d+\/$/m.exec(text)?.[0];
        if (address === undefined) return undefined;
        void fetch(address)
          .then(async (response) => {
            served = { status: response.status, body: await response.text() };
          })
          .finally(() => press());
        return undefined;
      },
    });
    expect(served).toMatchObject({ status: 200 });
    expect(served!.body).toContain('<title>setsquare: check a standing trial</title>');
    expect(ran.code).toBe(130);
    expect(ran.stdout).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\n$/);
    expect(ran.stderr).toBe('setsquare: open this address in a browser of this computer; Ctrl-C ends it.\n');
  });

  it.each(['x', '-1', '65536', ''])('refuses the port %s', async (port) => {
    const { code, stdout, stderr } = await runInProcess(['page', `--port=${port}`]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('expected a number from 0 to 65535');
  });
});
