import { describe, expect, it } from 'vitest';
import { type Change, parseChanged, refusalOf } from './changed-set.ts';

/** What is planted in the model of a shipped set, the place that is named, and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'a marker that is not there',
    ({ set }) => {
      set.model.knee.lateral = '@LEE';
    },
    '/model/knee/lateral',
    'found "@LEE", which stands for "R_LEE", expected a marker of this set; perhaps "@LE" is meant',
  ],
  [
    'one marker for both legs',
    ({ set }) => {
      set.model.ankle.wand = 'R_SW';
    },
    '/model/ankle/wand',
    'found "R_SW", which would serve both legs; write it with "@", for either side',
  ],
  [
    'one marker on either side of the joint',
    ({ set }) => {
      set.model.knee.medial = '@LE';
    },
    '/model/knee/medial',
    'found "@LE" as "lateral" and as "medial", expected two different points; correct one',
  ],
  [
    'an axis of a wand that is not named',
    ({ set }) => {
      delete set.model.knee.wand;
    },
    '/model/knee/axisFrom',
    'found "wand", but the knee names no "wand" marker; add it, or let the other give the axis',
  ],
  [
    'a hip centre that no regression gives',
    ({ set }) => {
      set.model.hipCentre = '@hipTop';
    },
    '/model/hipCentre',
    'found "@hipTop", expected a virtual point of construct "hip-centre" on either side; write a sided one and name it with "@"',
  ],
  [
    'the hip centre of one side for both',
    ({ set }) => {
      set.model.hipCentre = 'R_hipCentre';
    },
    '/model/hipCentre',
    'found "R_hipCentre", expected a virtual point of construct "hip-centre" on either side; write a sided one and name it with "@"',
  ],
  [
    'a foot without length',
    ({ set }) => {
      set.model.foot.to = '@HEEL';
    },
    '/model/foot/to',
    'found "@HEEL" as "from" and as "to", expected two different points; correct one',
  ],
  [
    'a foot of a joint centre',
    ({ set }) => {
      set.model.foot.to = '@hipCentre';
    },
    '/model/foot/to',
    'found "@hipCentre", which markers alone do not give; name a marker, or a point between markers',
  ],
  [
    'a posture called like a stance item',
    ({ set }) => {
      set.model.posture[0].id = 'knee-bent';
    },
    '/model/posture/0/id',
    'found "knee-bent", which another stance item is called already; choose another name, or take one out',
  ],
  [
    'a pelvis on either side',
    ({ set }) => {
      set.model.posture[1].sided = true;
    },
    '/model/posture/1/angle',
    'found "pelvis.obliquity" for either side, but the pelvis is one; take "sided" out',
  ],
  [
    'a hip without a side',
    ({ set }) => {
      delete set.model.posture[2].sided;
    },
    '/model/posture/2/angle',
    'found "hip.flexion" without a side; make the item "sided": true',
  ],
  [
    'a range turned round',
    ({ set }) => {
      set.model.posture[0].allowed.range = [36, -10];
    },
    '/model/posture/0/allowed/range',
    'found 36 and -10, expected the lower end first; exchange or correct them',
  ],
  [
    'a stand-in that nothing replaces',
    ({ set }) => {
      set.model.posture[0].saysAbove = 'the {side} pelvis is tilted';
    },
    '/model/posture/0/saysAbove',
    'found "{side}", which nothing would replace; write one of {value} {size} {off}, or no braces',
  ],
];

describe('parseMarkerSet refuses a lower-body model of', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    expect(refusalOf(plant)).toEqual({ pointer, message: `marker set, at ${pointer}: ${trouble}.` });
  });
});

describe('a marker set', () => {
  it('needs no model', () => {
    expect(parseChanged(({ set }) => delete set.model).model).toBeNull();
  });

  it('spells out both sides of its model, and what it leaves out', () => {
    const { model } = parseChanged(({ set }) => {
      delete set.model.ankle.medial;
      delete set.model.foot.flat;
    });
    expect(model?.left).toEqual({
      hipCentre: 'L_hipCentre',
      knee: { lateral: 'L_LE', medial: 'L_ME', wand: 'L_TW', axisFrom: 'wand' },
      ankle: { lateral: 'L_LM', medial: null, wand: 'L_SW', axisFrom: 'wand' },
      foot: { from: 'L_HEEL', to: 'L_MET5', flat: false },
    });
  });
});
