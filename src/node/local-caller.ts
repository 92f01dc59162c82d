/** A request, as far as it is judged. Header names in lower case. */
export interface AskedFor {
  readonly method: string;
  /** Path and query as they were sent. */
  readonly url: string;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
}

export interface Refused {
  readonly kind: 'refused';
  readonly status: 400 | 403 | 404 | 405 | 409 | 413;
  readonly says: string;
}

/**
 * Only this machine's own browser is answered, and only reading: another site whose name was made to lead here (its name
 * is then in Host), or whose page asks in the background (Origin, Sec-Fetch-Site), is refused before anything is looked
 * up. Null where nothing speaks against the request.
 * @param methods what may be asked; whoever lets in more than reading asks for a token besides
 */
export function refuseStranger(
  { method, headers }: AskedFor,
  port: number,
  methods: readonly string[] = ['GET'],
): Refused | null {
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
  return methods.includes(method) ? null : refused(405, 'This page can only be read.');
}

export function refused(status: Refused['status'], says: string): Refused {
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
