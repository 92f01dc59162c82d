// The script of the live page: hears that something changed, fetches what is new and puts it in place, so that the page
// stays where the reader has it.

/** The server beats every four seconds (watch/event-stream.ts). */
const silentMs = 10_000;
/** A stream that broke mends itself within a second where it can. */
const brokenMs = 3000;
const lookEveryMs = 1000;
/** Scrolled further down than this, a reader does not see what is new on top. */
const outOfSightPx = 250;

const live = byId('live');
const announcement = byId('announcement');
const connection = byId('connection');
const fresh = byId('fresh');

let heardAt = Date.now();
let brokenAt = Number.POSITIVE_INFINITY;
let fetching = false;
let wanted = shown().revision;
let stream = listen();

setInterval(() => {
  if (stream.readyState === EventSource.CLOSED) stream = listen();
  const cutOff = Date.now() - heardAt > silentMs || Date.now() - brokenAt > brokenMs;
  if (cutOff === !connection.hidden) return;
  connection.textContent = cutOff
    ? 'Not connected: what stands here may be out of date. Is setsquare still running?'
    : '';
  connection.hidden = !cutOff;
}, lookEveryMs);

addEventListener('scroll', () => {
  if (scrollY < outOfSightPx) fresh.hidden = true;
});

function listen(): EventSource {
  const source = new EventSource('/events');
  source.addEventListener('beat', heard);
  source.addEventListener('error', () => {
    brokenAt = Math.min(brokenAt, Date.now());
  });
  source.addEventListener('state', (event) => {
    heard();
    const { revision, run } = JSON.parse(event.data) as { revision: string; run: string };
    // The program was started again: its script and style may be others.
    if (run !== shown().run) location.reload();
    else void showRevision(revision);
  });
  return source;
}

function heard(): void {
  heardAt = Date.now();
  brokenAt = Number.POSITIVE_INFINITY;
}

/** Fetches until the newest revision is shown; what comes meanwhile is fetched after. */
async function showRevision(revision: string): Promise<void> {
  wanted = revision;
  if (fetching) return;
  fetching = true;
  try {
    while (shown().revision !== wanted) {
      const answer = await fetch('/live', { cache: 'no-store' });
      if (!answer.ok) throw new Error(`The server answered ${answer.status}.`);
      show(await answer.text());
      // What was fetched may be newer than what was asked for.
      wanted = Number(shown().revision) > Number(wanted) ? shown().revision : wanted;
    }
  } catch {
    // The stream breaks as well, comes back and tells again where things stand.
  } finally {
    fetching = false;
  }
}

function show(html: string): void {
  const before = shown();
  const place = scrollY;
  const open = openDetails();
  const focused = live.contains(document.activeElement) ? document.activeElement!.id : '';
  live.replaceChildren(...new DOMParser().parseFromString(html, 'text/html').body.childNodes);
  for (const details of live.querySelectorAll('details')) details.open = open.has(keyOf(details));
  if (focused !== '') document.getElementById(focused)?.focus({ preventScroll: true });
  scrollTo({ top: place, behavior: 'instant' });
  const now = shown();
  document.title = now.title;
  if (now.capture === before.capture) return;
  announcement.textContent = now.says;
  fresh.textContent = `New on top: ${now.title}`;
  fresh.hidden = scrollY < outOfSightPx;
}

/** What the element in place says of itself. */
function shown() {
  const {
    revision = '',
    run = '',
    title = '',
    capture = '',
    says = '',
  } = (live.firstElementChild as HTMLElement).dataset;
  return { revision, run, title, capture, says };
}

function openDetails(): Set<string> {
  return new Set([...live.querySelectorAll('details[open]')].map((details) => keyOf(details)));
}

/** Details bear no id; the heading in their summary does. */
function keyOf(details: Element): string {
  return details.querySelector('summary [id]')?.id ?? details.querySelector('summary')?.textContent ?? '';
}

function byId(id: string): HTMLElement {
  return document.getElementById(id)!;
}
