import { quoted } from '../schemas/show-value.ts';
import { type Draft, entriesOf, refuse } from './draft.ts';
import { foldLabel } from './fold-label.ts';

/** Most entries of each list, a sided one counting twice; the cost of a check grows with them. */
const most = { markers: 100, segments: 40, virtualPoints: 60, views: 20, rules: 300, stance: 30, orders: 100 } as const;

/** @throws MarkerSetError where a list is too long with both sides counted */
export function checkSizes(draft: Draft): void {
  for (const collection of Object.keys(most) as (keyof typeof most)[]) {
    const count = draft.set[collection].length;
    if (count <= most[collection]) continue;
    refuse(
      draft,
      `/${collection}`,
      `found ${count} entries with both sides counted, expected at most ${most[collection]}; take some out`,
    );
  }
}

/** @throws MarkerSetError where two things would have one name, or one label could mean two markers */
export function checkNames(draft: Draft): void {
  const { written } = draft;
  refuseTwice(draft, 'markers', 'label');
  refuseTwice(draft, 'segments', 'name');
  refuseTwice(draft, 'views', 'name');
  refuseTwice(draft, 'rules', 'id');
  refuseTwice(draft, 'stance', 'id');
  const variants = new Set<string>();
  written.variants.forEach(({ id }, index) => {
    if (variants.has(id)) refuse(draft, `/variants/${index}/id`, twice(id, 'variant'));
    variants.add(id);
  });
  refuseAmbiguousLabels(draft);
}

/** Names as written and with their sides: a "GT" beside a sided "GT" is as unclear as an "R_GT". */
function refuseTwice<Name extends 'markers' | 'segments' | 'views' | 'rules' | 'stance'>(
  draft: Draft,
  collection: Name,
  field: 'label' | 'name' | 'id',
): void {
  const owners = new Map<string, string>();
  for (const { pointer, written, item } of entriesOf(draft, collection)) {
    for (const entry of [written, item]) {
      const name = (entry as unknown as Record<string, string>)[field]!;
      if ((owners.get(name) ?? pointer) !== pointer) {
        refuse(
          draft,
          `${pointer}/${field}`,
          twice(name, collection === 'stance' ? 'stance item' : collection.slice(0, -1)),
        );
      }
      owners.set(name, pointer);
    }
  }
}

function twice(name: string, what: string): string {
  return `found ${quoted(name)}, which another ${what} is called already; choose another name, or take one out`;
}

/** A label or alias that could mean two markers would put one marker in another's place. */
function refuseAmbiguousLabels(draft: Draft): void {
  const owners = new Map<string, string>();
  for (const { pointer, written, item: marker } of entriesOf(draft, 'markers')) {
    const { aliases } = written;
    const place =
      aliases !== undefined && 'right' in aliases ? `${pointer}/aliases/${marker.side}` : `${pointer}/aliases`;
    if (aliases !== undefined && 'right' in aliases && marker.side === 'midline') {
      refuse(
        draft,
        `${pointer}/aliases`,
        'found aliases for right and left, but the marker is not sided; write one list',
      );
    }
    if (Array.isArray(aliases) && aliases.length > 0 && marker.side !== 'midline') {
      refuse(
        draft,
        `${pointer}/aliases`,
        'found one list of aliases, but the marker is sided; write "right" and "left" with a list each',
      );
    }
    [marker.label, ...marker.aliases].forEach((label, index) => {
      const at = index === 0 ? `${pointer}/label` : `${place}/${index - 1}`;
      const folded = foldLabel(label);
      if (folded === '')
        refuse(draft, at, `found ${quoted(label)}, expected at least one letter or digit; write another`);
      const owner = owners.get(folded);
      if (owner !== undefined && owner !== marker.label) {
        refuse(
          draft,
          at,
          `found ${quoted(label)}, which could mean ${quoted(owner)} or ${quoted(marker.label)}, as letter case, spaces and punctuation do not tell labels apart; take it out or write another`,
        );
      }
      owners.set(folded, marker.label);
    });
  }
}
