import type { MarkerDefinition, MarkerSet } from '../../core/marker-set/marker-set.ts';

/** Markers of one landmark, right and left, in the order in which the protocol has them put on. */
export function placementRows({ markers, placementOrder }: MarkerSet): MarkerDefinition[][] {
  const place = new Map(placementOrder.map((label, index) => [label, index]));
  const last = placementOrder.length;
  const rows = new Map<string, MarkerDefinition[]>();
  const ordered = [...markers].sort((a, b) => (place.get(a.label) ?? last) - (place.get(b.label) ?? last));
  for (const marker of ordered) rows.set(marker.stem, [...(rows.get(marker.stem) ?? []), marker]);
  return [...rows.values()];
}

/** A row for each landmark: how it is found, what confirms it, and boxes for both sides. */
export function PlacementTable({ set }: { readonly set: MarkerSet }) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Landmark</th>
          <th scope="col">How it is found</th>
          <th scope="col">What confirms it</th>
          <th scope="col" class="tick">
            Right
          </th>
          <th scope="col" class="tick">
            Left
          </th>
          <th scope="col" class="tick">
            Checked
          </th>
        </tr>
      </thead>
      <tbody>
        {placementRows(set).map((markers) => {
          const [first] = markers as [MarkerDefinition];
          return (
            <tr>
              <th scope="row">
                {first.landmark} <span class="small">{noteOf(first)}</span>
              </th>
              <td class="small">{first.find}</td>
              <td class="small">{first.confirm}</td>
              {first.side === 'midline' ? (
                <td class="tick" colSpan={2}>
                  <span class="box" />
                </td>
              ) : (
                <>
                  <td class="tick">
                    <span class="box" />
                  </td>
                  <td class="tick">
                    <span class="box" />
                  </td>
                </>
              )}
              <td class="tick">
                <span class="box" />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** "GT", with where it is not for every trial. */
function noteOf({ stem, presence }: MarkerDefinition): string {
  const when = { required: '', optional: ', optional', 'static-only': ', standing trial only' }[presence];
  return `(${stem}${when})`;
}
