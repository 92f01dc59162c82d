import type { ComponentChildren } from 'preact';
import { render } from 'preact-render-to-string';
import { base64, sha256 } from './sha256.ts';

/** The one style of a page, and the policy that allows it and nothing else: no script, image, frame, form or request. */
export interface SealedStyle {
  readonly css: string;
  readonly policy: string;
}

export function sealStyle(css: string): SealedStyle {
  const hash = base64(sha256(new TextEncoder().encode(css)));
  return { css, policy: `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'` };
}

/** A page that opens from disk and needs nothing from elsewhere: the same content gives the same bytes. */
export function standalonePage(title: string, { css, policy }: SealedStyle, body: ComponentChildren): string {
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="referrer" content="no-referrer" />
        <title>{title}</title>
        <style dangerouslySetInnerHTML={{ __html: css }} />
      </head>
      <body>{body}</body>
    </html>
  );
  return `<!doctype html>${render(page)}\n`;
}
