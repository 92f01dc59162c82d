import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

interface PrintedViewProps {
  readonly back: () => void;
  /** Beside the buttons. */
  readonly said: string;
  readonly children: ComponentChildren;
}

/** Something to look at and to print, with its heading in focus. */
export function PrintedView({ back, said, children }: PrintedViewProps) {
  const shown = useRef<HTMLDivElement>(null);
  useEffect(() => shown.current?.querySelector('h1')?.focus(), []);
  return (
    <div class="practice" ref={shown}>
      <div class="rows on-screen">
        <button type="button" onClick={() => print()}>
          Print
        </button>
        <button type="button" onClick={back}>
          Back
        </button>
        <span role="status">{said}</span>
      </div>
      {children}
    </div>
  );
}
