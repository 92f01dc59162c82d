import { scaleLinear } from 'd3-scale';
import { angleName, bandsAreTotals } from '../../core/moves/changes-words.ts';
import type { Move, Report } from '../../core/report/report.ts';
import { fixed } from '../../core/report/rounding.ts';
import { svgNumber } from '../figure/views.ts';
import { below, Heading, type Level } from '../heading.tsx';
import { markerWords } from '../words.ts';

/** Changes smaller than this are left to the JSON report, degrees. */
const leastShownDeg = 0.5;
/** Borders of the published bands, degrees. */
const bandBorders = [2, 5] as const;

interface AtStakeProps {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}

/** What each step changes in the data, angle by angle, against the published bands of error. */
export function AtStake({ report, id, level }: AtStakeProps) {
  const moves = report.moves.filter(({ changes }) => (changes?.largestDeg ?? 0) >= leastShownDeg);
  if (moves.length === 0) return null;
  return (
    <section class="at-stake" aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        Degrees at stake
      </Heading>
      <div class="charts">
        {moves.map((move) => (
          <Changes move={move} level={below(level)} />
        ))}
      </div>
      <p class="small">{bandsAreTotals}</p>
    </section>
  );
}

interface Row {
  readonly name: string;
  readonly deg: number;
}

function rowsOf({ changes }: Move): Row[] {
  const angles = (changes?.angles ?? []).map(
    (angle): Row => ({ name: `${angleName(angle)}${sided(angle.side)}`, deg: angle.deg }),
  );
  const leaks = (changes?.crossTalk ?? []).map(
    ({ side, atFlexionDeg, varusDeg }): Row => ({
      name: `varus-valgus at ${atFlexionDeg}° of knee flexion${sided(side)}`,
      deg: varusDeg,
    }),
  );
  return [...angles, ...leaks]
    .filter(({ deg }) => Math.abs(deg) >= leastShownDeg)
    .sort((a, b) => Math.abs(b.deg) - Math.abs(a.deg));
}

function sided(side: string): string {
  return side === 'midline' ? '' : `, ${side}`;
}

function Changes({ move, level }: { readonly move: Move; readonly level: Level }) {
  const rows = rowsOf(move);
  const most = Math.max(6, ...rows.map(({ deg }) => Math.abs(deg)));
  return (
    <div class="changes">
      <Heading level={level}>{`Step ${move.step}: the patient's ${markerWords(move)}`}</Heading>
      <table>
        <thead>
          <tr>
            <th scope="col">Angle</th>
            <th scope="col">Changes by</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, deg }) => (
            <tr>
              <th scope="row">{name}</th>
              <td class="figure">{`${fixed(1, Math.abs(deg))}°`}</td>
              <td>
                <Bar deg={Math.abs(deg)} most={most} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Bar({ deg, most }: { readonly deg: number; readonly most: number }) {
  const x = scaleLinear().domain([0, most]).range([0, 240]);
  return (
    <svg class="bar-chart" viewBox="0 0 240 22" aria-hidden="true">
      <rect class="ground-band" width="240" height="22" />
      <rect class="amount" y="5" width={svgNumber(x(deg))} height="12" />
      {bandBorders.map((border) => (
        <line class="border" x1={svgNumber(x(border))} x2={svgNumber(x(border))} y1="0" y2="22" />
      ))}
    </svg>
  );
}
