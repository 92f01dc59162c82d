import { type C3dContents, writeC3d } from '../../../src/core/c3d/write-c3d.ts';

/**
 * A person of rigid parts with hinges for knees, who stands and then bends their knees: written apart from the model that
 * is tested with it. Forward, left, up; mm; plain arrays.
 */
type P = readonly [number, number, number];

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const plus = (a: P, b: P, times = 1): P => [a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]];
const minus = (a: P, b: P): P => plus(a, b, -1);
const inner = (a: P, b: P): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const outer = (a: P, b: P): P => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const norm = (a: P): P => plus([0, 0, 0], a, 1 / Math.sqrt(inner(a, a)));

/** Rodrigues: a vector turned about a unit axis, right-handed. */
function turned(vector: P, axis: P, angleRad: number): P {
  const [c, s] = [Math.cos(angleRad), Math.sin(angleRad)];
  return plus(plus(plus([0, 0, 0], vector, c), outer(axis, vector), s), axis, (1 - c) * inner(axis, vector));
}

function turnedAbout(point: P, centre: P, axis: P, angleRad: number): P {
  return plus(centre, turned(minus(point, centre), axis, angleRad));
}

export interface Bend {
  /** By how much the thigh wand is turned about the line from epicondyle to hip centre; outward positive, degrees. */
  readonly wandTurnDeg: { readonly right: number; readonly left: number };
  /** The axis of the knee itself, turned outward from straight ahead. */
  readonly kneeTurnDeg?: number;
  readonly varusDeg?: number;
  /** Largest flexion, and by how much a knee goes into varus by itself at that. */
  readonly flexionDeg?: number;
  readonly ownVarusDeg?: number;
  readonly noiseMm?: number;
  readonly headingDeg?: number;
  /** Turns the line from the inner to the outer knee marker outward by moving the inner one. */
  readonly medialTurnDeg?: number;
  readonly contents?: Partial<C3dContents>;
}

const halfKneeMm = 57;
/** What the session has to hold so that the model has the same knee: markers of 14 mm on a knee of 100. */
export const kneeWidthMm = 100;
const asisMm = 240;
const depthMm = 155;

interface Leg {
  readonly hip: P;
  readonly knee: P;
  readonly axis: P;
  readonly onThigh: ReadonlyMap<string, P>;
  readonly onShank: ReadonlyMap<string, P>;
}

/** One standing leg: joint centres, knee axis (outward) and its markers. */
function leg(side: 'right' | 'left', bend: Bend): Leg {
  const out = side === 'right' ? -1 : 1;
  // Harrington et al. 2007, simple: from the middle of the ASIS, on a level pelvis.
  const hip: P = [-0.24 * depthMm - 9.9, out * (0.33 * asisMm + 7.3), 950 - 0.3 * asisMm - 10.9];
  const outward = turned([0, out, 0], [0, 0, 1], out * radians(bend.kneeTurnDeg ?? 0));
  const knee: P = [hip[0] + 5, hip[1], 480];
  const thighUp = norm(minus(hip, knee));
  const axis = norm(plus(outward, thighUp, -inner(outward, thighUp)));
  const lateral = plus(knee, axis, halfKneeMm);
  const line = norm(minus(hip, lateral));
  const inPlane = norm(plus(axis, line, -inner(axis, line)));
  const wandRad = -out * radians(side === 'right' ? bend.wandTurnDeg.right : bend.wandTurnDeg.left);
  const wand = plus(plus(lateral, line, 200), turned(inPlane, line, -wandRad), 140);
  const medialRad = out * radians(bend.medialTurnDeg ?? 0);
  const medial = plus(lateral, turned(axis, thighUp, medialRad), -2 * halfKneeMm);
  const shankDown = turned([0, 0, -1], [1, 0, 0], -out * radians(bend.varusDeg ?? 0));
  const ankle = plus(knee, shankDown, 400);
  const malleolar = turned(outward, [0, 0, 1], out * radians(25));
  const malleolus = plus(ankle, malleolar, 43);
  const fibula = plus(plus(lateral, [-14, 0, -32]), axis, -3);
  const shankLine = norm(minus(fibula, malleolus));
  const name = (label: string) => `${side === 'right' ? 'R' : 'L'}_${label}`;
  const outFoot = norm([Math.cos(radians(12)), out * Math.sin(radians(12)), 0]);
  const heel: P = [ankle[0] - 55, ankle[1], 40];
  return {
    hip,
    knee,
    axis,
    onThigh: new Map([
      [name('GT'), plus(hip, [-8, out * 75, 0])],
      [name('TW'), wand],
      [name('LE'), lateral],
      [name('ME'), medial],
    ]),
    onShank: new Map([
      [name('HF'), fibula],
      [name('SW'), plus(plus(malleolus, shankLine, 170), malleolar, 90)],
      [name('LM'), malleolus],
      [name('MM'), plus(ankle, malleolar, -43)],
      [name('HEEL'), heel],
      [name('MET5'), plus(plus(heel, outFoot, 178), [0, out * 30, 0])],
    ]),
  };
}

const trunk: ReadonlyMap<string, P> = new Map<string, P>([
  ['C7', [-90, 0, 1460]],
  ['R_ACR', [-40, -180, 1420]],
  ['L_ACR', [-40, 180, 1420]],
  ['R_ASIS', [0, -asisMm / 2, 950]],
  ['L_ASIS', [0, asisMm / 2, 950]],
  ['S1', [-depthMm, 0, 950]],
]);

const frames = 240;

/** Two bends and back, between frames; 0 in a static trial. */
function flexionAt(frame: number, most: number): number {
  return (most / 2) * (1 - Math.cos((4 * Math.PI * frame) / frames));
}

/** Repeatable noise between -1 and 1. */
function noise(seed: number): number {
  const value = Math.sin(seed * 12.9898) * 43758.5453;
  return 2 * (value - Math.floor(value)) - 1;
}

function record(bend: Bend, mostDeg: number): Uint8Array {
  const legs = [leg('right', bend), leg('left', bend)];
  const labels = [...trunk.keys(), ...legs.flatMap(({ onThigh, onShank }) => [...onThigh.keys(), ...onShank.keys()])];
  const heading = radians(bend.headingDeg ?? 25);
  const values = new Float32Array(frames * labels.length * 4);
  let at = 0;
  for (let frame = 0; frame < frames; frame++) {
    const flexionDeg = flexionAt(frame, mostDeg);
    const places = new Map(trunk);
    for (const { hip, knee, axis, onThigh, onShank } of legs) {
      const out = Math.sign(axis[1]);
      const ownRad = radians((bend.ownVarusDeg ?? 0) * (flexionDeg / (mostDeg || 1)));
      // The shank goes back about the outward axis, then the thigh forward about the hips; a little abduction beside.
      const bent = (point: P): P => {
        const varus = turnedAbout(point, knee, [1, 0, 0], -out * ownRad);
        return turnedAbout(varus, knee, axis, out * radians(flexionDeg));
      };
      const carried = (point: P): P =>
        turnedAbout(
          turnedAbout(point, hip, [0, 1, 0], -radians(flexionDeg / 2)),
          hip,
          [1, 0, 0],
          out * radians(flexionDeg / 12),
        );
      for (const [label, point] of onThigh) places.set(label, carried(point));
      for (const [label, point] of onShank) places.set(label, carried(bent(point)));
    }
    for (const label of labels) {
      const [x, y, z] = places.get(label)!;
      const rough = (axis: number) => (bend.noiseMm ?? 0.2) * noise(at + axis + 1);
      values[at] = 300 + x * Math.cos(heading) - y * Math.sin(heading) + rough(0);
      values[at + 1] = -200 + x * Math.sin(heading) + y * Math.cos(heading) + rough(1);
      values[at + 2] = z + rough(2);
      at += 4;
    }
  }
  return writeC3d({
    rateHz: 100,
    units: 'mm',
    labels,
    pointCount: labels.length,
    frameCount: frames,
    values,
    screen: { x: '+X', y: '+Z' },
    ...bend.contents,
  });
}

export const standStill = (bend: Bend): Uint8Array => record(bend, 0);
export const bendKnees = (bend: Bend): Uint8Array => record(bend, bend.flexionDeg ?? 75);
