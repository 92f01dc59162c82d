import { furthestTitle, spreadTitle } from '../../core/practice/format-repeat.ts';
import type { ToldRepeat } from '../../core/practice/repeat-rows.ts';

const ways = ['Forward', 'Up', 'Outward'] as const;

interface RepeatProps {
  readonly told: ToldRepeat;
}

/** What one placing spreads by, and how little so few tell. */
export function RepeatArticle({ told: { placings, doubts, landmarks, markers, limits } }: RepeatProps) {
  return (
    <article class="record" aria-labelledby="repeat-heading">
      <h1 id="repeat-heading" tabIndex={-1}>{`One subject, marked anew ${placings} times`}</h1>
      {doubts.map((doubt) => (
        <p class="doubt">{doubt}</p>
      ))}
      <section aria-labelledby="spread">
        <h2 id="spread">{spreadTitle}</h2>
        <table>
          <thead>
            <tr>
              <th scope="col">Landmark</th>
              <th scope="col">Forward (usual)</th>
              <th scope="col">Up (usual)</th>
              <th scope="col">Outward (usual)</th>
            </tr>
          </thead>
          <tbody>
            {landmarks.map(({ called, measured, usual }) => (
              <tr>
                <th scope="row">{called}</th>
                {measured.map((mm, at) => (
                  <td data-of={`${ways[at]} (usual)`}>{`${mm} (${usual[at]})`}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <section aria-labelledby="furthest">
        <h2 id="furthest">{furthestTitle}</h2>
        <table>
          <thead>
            <tr>
              <th scope="col">Marker</th>
              <th scope="col">Forward</th>
              <th scope="col">Up</th>
              <th scope="col">Outward</th>
              <th scope="col">Against the hand</th>
            </tr>
          </thead>
          <tbody>
            {markers.map(({ marker, furthest, isBeyondHand }) => (
              <tr>
                <th scope="row">{marker}</th>
                {furthest.map((mm, at) => (
                  <td data-of={ways[at]}>{mm}</td>
                ))}
                <td data-of="Against the hand">{isBeyondHand ? 'more than the hand' : 'within'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {limits.map((says) => (
        <p class="small">{says}</p>
      ))}
    </article>
  );
}
