import { valueAt } from './json-pointer.ts';

/**
 * Fields that each place of the two formats knows, for the suggestion when one is misspelt. A test holds the list
 * against the schemas. `*` stands for any entry; what a rule or virtual point has besides depends on its kind.
 */
const geometry: Readonly<Record<string, readonly string[]>> = {
  'line-parallel-to-floor': ['from', 'to', 'allowed'],
  'point-in-line': ['point', 'distal', 'proximal', 'view', 'reachFrom', 'allowedTurn'],
  'line-square-to-axis': ['from', 'to', 'axisFrom', 'axisTo', 'axisSdDeg', 'allowed'],
  'pair-level': ['right', 'left', 'allowed'],
  'pair-mirrored': ['right', 'left', 'component', 'allowed'],
  'lengths-alike': ['right', 'left', 'allowed'],
  'point-on-midline': ['point', 'right', 'left', 'allowed'],
  'order-along-axis': ['first', 'second', 'axis', 'segment', 'allowed'],
  'distance-in-range': ['from', 'to', 'per', 'allowed'],
  'angle-in-range': ['measure', 'from', 'to', 'vertex', 'allowed'],
};
const constructs: Readonly<Record<string, readonly string[]>> = {
  midpoint: ['of'],
  'first-of': ['of'],
  'along-line': ['from', 'to', 'fraction'],
  'hip-centre': ['method', 'rightAsis', 'leftAsis', 'pelvisBack'],
};

const words = (text: string): readonly string[] => text.split(' ');
const line = ['from', 'to'];
const allowed = ['target', 'limit', 'range'];
const sides = ['right', 'left'];
const judged = words('id sided side title kind unit borderline saysAbove saysBelow source');

const places: Readonly<Record<string, readonly string[]>> = {
  '/markers/*': words(
    'label sided landmark called aliases segment presence placedBy purpose diameterMm baseThicknessMm wandLengthMm scatterMm scatterSource misplacement slides toward find confirm',
  ),
  '/markers/*/aliases': sides,
  '/markers/*/scatterMm': ['forward', 'up', 'outward'],
  '/markers/*/misplacement': ['sdMm', 'odds'],
  '/markers/*/toward': words('forward backward up down outward inward left right'),
  '/segments/*': ['name', 'sided', 'longAxis', 'forward', 'outward'],
  '/segments/*/longAxis': line,
  '/segments/*/forward': line,
  '/virtualPoints/*': ['name', 'sided', 'construct'],
  '/views/*': words('name sided from to estimate base recordedAs recordedSdDeg caution source'),
  '/views/*/estimate': ['turnDeg', 'sdDeg'],
  '/bodyAxes': ['right', 'left', 'forward', 'low', 'high', 'floorBelowLowestMm'],
  '/bodyAxes/forward/*': ['from', 'to', 'says'],
  '/rules/*': [...judged, ...words('basis essential spans mayMove explainedBy suspendedBy shiftedBy why seen')],
  '/rules/*/shiftedBy/*': ['fact', 'factor', 'widen'],
  '/measurementsIn/*': ['measure', 'side', 'parameter', 'unit'],
  '/comparisons/*': words('id sided title measure kind markers coverShare tissueMm spreadMm alikeMm height source'),
  '/unseen/*': ['markers', 'says'],
  '/recordedIn': ['assessor', 'site', 'subject', 'on'],
  '/model': ['hipCentre', 'knee', 'ankle', 'foot', 'posture'],
  '/model/posture/*': words('id sided title angle allowed borderline saysAbove saysBelow advice expectedWith source'),
  '/model/posture/*/allowed': ['range'],
  '/model/knee': ['lateral', 'medial', 'wand', 'axisFrom'],
  '/model/ankle': ['lateral', 'medial', 'wand', 'axisFrom'],
  '/model/foot': ['from', 'to', 'flat'],
  '/stance/*': [...judged, 'advice', 'expectedWith'],
  ...Object.fromEntries(
    ['/rules/*', '/stance/*'].flatMap((list) => [
      [`${list}/allowed`, allowed],
      [`${list}/allowedTurn`, ['targetDeg', 'limitDeg']],
      [`${list}/reachFrom`, ['distal', 'proximal']],
      [`${list}/per`, line],
      [`${list}/right`, line],
      [`${list}/left`, line],
    ]),
  ),
  '/orders/*': ['sided', 'first', 'second', 'axis', 'byMm'],
  '/variants/*': ['id', 'title', 'says', 'suspends', 'landmarks', 'allowed'],
  '/variants/*/suspends/*': ['rule', 'when', 'unless'],
  '/variants/*/allowed/*': ['allowed', 'borderline'],
  '/variants/*/allowed/*/allowed': allowed,
  '/markerSet': ['name', 'version', 'sha256'],
  '/stillness': ['quietMm', 'restlessMm', 'source'],
  '/subject': ['code', 'ageYears', 'sex'],
  '/visit': ['assessor', 'site', 'device', 'on'],
  '/measurements/*': words('measure side value unit repeats instrument posture inTwoParts by'),
  '/facts': words(
    'legLengthDifferenceMm kneeTurnDeg tibialTorsionDeg heelRaiseMm heelSoleDifferenceMm variants contractures block prosthesis orthosis cannotStandStraight supported',
  ),
  ...Object.fromEntries(
    words('kneeTurnDeg tibialTorsionDeg heelRaiseMm heelSoleDifferenceMm').map((fact) => [`/facts/${fact}`, sides]),
  ),
  '/facts/variants/*': ['id', 'side'],
  '/facts/contractures/*': ['joint', 'side', 'angleDeg'],
  '/facts/block': ['side', 'heightMm'],
  '/accepted/*': words('rule reasonCode reason by on'),
  '/captures/*': words('subject assessor session trial sessionFile on'),
  '/confirmed/*': words('marker rule measure side reasonCode reason by on'),
};

const top = {
  'marker set': words(
    '$schema format name version title markers segments virtualPoints views bodyAxes rules stance oftenSwapped orders placementOrder variants stillness measurementsIn unseen model staticTrialNames recordedIn comparisons',
  ),
  session: words('$schema format subject visit measurements facts accepted confirmed walkingTrials'),
  study: words('$schema format title site markerSet skinMarksRemoved nextDue captures'),
  norms: words('name version origin markerSet people includesScatter bodyHeightMm residuals mean covariance sources'),
};

/** Fields known at a place of a file; empty where the place is no object of the format. */
export function knownFields(kind: keyof typeof top, data: unknown, pointer: string): readonly string[] {
  if (pointer === '' || pointer === '/') return top[kind];
  const place = pointer.replace(/^(\/variants\/\d+\/allowed\/)[^/]+/, '$1*').replace(/\/\d+(?=\/|$)/g, '/*');
  const always = Object.hasOwn(places, place) ? places[place]! : [];
  if (place === '/virtualPoints/*') return [...fieldsOf(constructs, valueAt(data, `${pointer}/construct`)), ...always];
  if (place === '/rules/*' || place === '/stance/*')
    return [...fieldsOf(geometry, valueAt(data, `${pointer}/kind`)), ...always];
  return always;
}

function fieldsOf(table: Readonly<Record<string, readonly string[]>>, kind: unknown): readonly string[] {
  return typeof kind === 'string' && Object.hasOwn(table, kind) ? table[kind]! : [];
}
