import type { LoadedMarkerSet } from '../marker-set/parse-marker-set.ts';
import { jsonText } from '../report/json-text.ts';
import { roundTo } from '../report/rounding.ts';
import type { Session } from '../session/session.ts';
import { toolVersion } from '../version.ts';
import { type Crosstalk, isUsable, type KneeCrosstalk } from './crosstalk.ts';

interface Source {
  readonly path: string;
  readonly sha256: string;
}

/** One object; degrees to 0.1, the slope to 0.0001, shares to 0.001. `series` is what a plot is drawn from. */
export function crosstalkJson(
  { verdict, knees, problems }: Crosstalk,
  { trial, static: standing }: { readonly trial: Source; readonly static: Source },
  set: LoadedMarkerSet,
  session: Session,
): string {
  return jsonText({
    format: 'setsquare-crosstalk/1',
    tool: { version: toolVersion },
    verdict,
    trial,
    static: standing,
    subject: { code: session.subject.code },
    markerSet: { name: set.name, version: set.version, sha256: set.sha256 },
    knees: knees.map((knee) => (isUsable(knee) ? rounded(knee) : { ...knee, usable: false })),
    problems,
  });
}

function rounded(knee: KneeCrosstalk): unknown {
  const range = ({ least, most }: KneeCrosstalk['flexionDeg']) => ({
    least: roundTo(1, least),
    most: roundTo(1, most),
  });
  return {
    ...knee,
    usable: true,
    flexionDeg: range(knee.flexionDeg),
    varusDeg: range(knee.varusDeg),
    slope: roundTo(4, knee.slope),
    correlation: roundTo(3, knee.correlation),
    turnDeg: roundTo(1, knee.turnDeg),
    uncertaintyDeg: roundTo(1, knee.uncertaintyDeg),
    scatterDeg: roundTo(1, knee.scatterDeg),
    explained: roundTo(3, knee.explained),
    at60Deg: roundTo(1, knee.at60Deg),
    staticTurnDeg: roundTo(1, knee.staticTurnDeg),
    series: knee.series.map(({ frame, flexionDeg, varusDeg }) => ({
      frame,
      flexionDeg: roundTo(1, flexionDeg),
      varusDeg: roundTo(1, varusDeg),
    })),
  };
}
