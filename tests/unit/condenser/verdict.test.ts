import { describe, expect, it } from 'vitest';
import { CAUSES, cleanPrior, type CauseId, type Reading } from '@/lib/core/condenser';
import { holdK, underHeadControl } from '@/lib/core/condenser/causes/head-control';
import { causesOf } from '@/lib/core/condenser/causes/ranked';
import { infer, type Belief } from '@/lib/core/condenser/inference/infer';
import type { LookId } from '@/lib/core/condenser/inference/next-look';
import { sceneOf } from '@/lib/core/condenser/inference/scene';
import { measuredOf } from '@/lib/core/condenser/readings/measured';
import { judge } from '@/lib/core/condenser/verdict';
import { lookWords } from '@/lib/core/condenser/words/looks';
import { F, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const READ: Reading = { at: 0, phase: 'before' };
const LOOKED = { coilGrade: 'furred', fanGrade: 'sound' } as const;

/** A belief with these odds, and so much lost of the coil, sure to a fiftieth. */
function believed(odds: Partial<Record<CauseId, number>>, loss = 0.4): Belief {
  const sum = Object.values(odds).reduce((a, b) => a + b, 0);
  const probability = Object.fromEntries(CAUSES.map((c) => [c, (odds[c] ?? 0) / sum]));
  const components = CAUSES.map((cause) => ({ cause, weight: probability[cause], loss, lossSd: 0.02 }));
  const scene = { unit: REACH_IN, baseline: cleanPrior(REACH_IN) };
  return { probability, components, scene } as unknown as Belief;
}
const looks = (...of: LookId[]) => of.map((look) => ({ look, bits: 0.1 }));
const verdict = (odds: Partial<Record<CauseId, number>>, more: Partial<Reading> = {}, loss?: number, ...next: LookId[]) =>
  judge(believed(odds, loss), { ...READ, ...more }, looks(...next));

describe('a verdict', () => {
  it('is to clean a coil that is surely the trouble, once coil and fan were looked at', () => {
    expect(verdict({ coil_fouling: 0.7, nothing: 0.3 }, LOOKED, 0.4, 'roomAirK')).toEqual({ verdict: 'clean_it', leading: 'coil_fouling', also: undefined, look: 'roomAirK' }); // prettier-ignore
    expect(verdict({ coil_fouling: 0.58, nothing: 0.42 }, LOOKED).verdict).not.toBe('clean_it');
  });
  it.each(['coilGrade', 'fanGrade'] as const)('is to look first where %s was not looked at', (field) => {
    const j = verdict({ coil_fouling: 0.9, nothing: 0.1 }, { ...LOOKED, [field]: undefined }, 0.4, 'roomAirK', field);
    expect(j).toMatchObject({ verdict: 'look_first', leading: 'coil_fouling', look: field });
  });
  it('takes less to clean what was found matted or packed', () => {
    for (const coilGrade of ['matted', 'packed'] as const) {
      expect(verdict({ coil_fouling: 0.35, evaporator_fan: 0.4, nothing: 0.25 }, { coilGrade, fanGrade: 'sound' })).toMatchObject({ verdict: 'clean_it', also: 'evaporator_fan' }); // prettier-ignore
      expect(verdict({ coil_fouling: 0.25, evaporator_fan: 0.7 }, { coilGrade, fanGrade: 'sound' }).verdict).toBe('look_elsewhere');
    }
    expect(verdict({ coil_fouling: 0.45, evaporator_fan: 0.55 }, LOOKED).verdict).toBe('look_elsewhere');
  });
  it('is never to clean where the fan stands, after a cleaning, or for a loss that is not worth an hour', () => {
    expect(verdict({ coil_fouling: 0.9, nothing: 0.1 }, { ...LOOKED, fanGrade: 'failed' }).verdict).not.toBe('clean_it');
    expect(verdict({ coil_fouling: 0.9, nothing: 0.1 }, { ...LOOKED, phase: 'after' }, 0.4, 'boxK')).toEqual({ verdict: 'look_elsewhere', leading: 'coil_fouling', look: 'boxK' }); // prettier-ignore
    expect(verdict({ coil_fouling: 0.9, nothing: 0.1 }, LOOKED, 0.05).verdict).not.toBe('clean_it');
  });
  it('names a second trouble from a fifth, never the sound machine', () => {
    expect(verdict({ coil_fouling: 0.7, low_charge: 0.25, nothing: 0.05 }, LOOKED).also).toBe('low_charge');
    expect(verdict({ coil_fouling: 0.75, low_charge: 0.15, nothing: 0.1 }, LOOKED).also).toBeUndefined();
    expect(verdict({ coil_fouling: 0.7, nothing: 0.3 }, LOOKED).also).toBeUndefined();
  });
  it('sends elsewhere for another cause that is likelier than not, and to look first where it had not run', () => {
    expect(verdict({ overcharge: 0.55, nothing: 0.45 }, LOOKED, 0, 'condensingClampK')).toMatchObject({ verdict: 'look_elsewhere', leading: 'overcharge', look: 'condensingClampK' }); // prettier-ignore
    expect(verdict({ not_steady: 0.55, nothing: 0.45 }, LOOKED)).toMatchObject({ verdict: 'look_first', leading: 'not_steady' });
    expect(verdict({ overcharge: 0.46, recirculation: 0.3, low_charge: 0.2, nothing: 0.04 }, LOOKED)).toMatchObject({ verdict: 'look_first', leading: 'overcharge', also: 'recirculation' }); // prettier-ignore
  });
  it('is to look first where coil, fan and air path together are likelier than not and were not looked at', () => {
    const odds = { coil_fouling: 0.25, condenser_fan: 0.15, blocked_air: 0.15, nothing: 0.45 };
    expect(verdict(odds, {}, 0.4, 'boxK', 'fanGrade', 'coilGrade').look).toBe('fanGrade');
    expect(verdict(odds, { fanGrade: 'sound' }, 0.4, 'boxK', 'fanGrade', 'coilGrade').look).toBe('coilGrade');
    expect(verdict(odds, {}, 0.4, 'boxK').look).toBe('boxK');
    expect(verdict(odds, {}, 0.4).verdict).toBe('look_first');
  });
  it('is to watch a coil that may have lost some, and else that all is fine', () => {
    expect(verdict({ nothing: 0.6, coil_fouling: 0.35, high_load: 0.05 }, LOOKED)).toEqual({ verdict: 'watch', leading: 'nothing' });
    expect(verdict({ nothing: 0.7, coil_fouling: 0.25, high_load: 0.05 }, LOOKED)).toEqual({ verdict: 'fine', leading: 'nothing' });
  });
});

describe('the look that decides for a cause', () => {
  const state = stateAt(REACH_IN, 0.7, F(88));
  const scene = sceneOf(REACH_IN, readingOf(state), cleanPrior(REACH_IN), { learnt: false });
  const all = () => {
    const belief = scene && infer(scene, 0);
    const measured = scene && measuredOf(scene);
    if (!belief || !measured) throw new Error('no belief');
    return (...open: LookId[]) => Object.fromEntries(causesOf(belief, measured, REACH_IN, looks(...open)).map((c) => [c.id, c.next]));
  };
  const DECIDING: Record<CauseId, readonly LookId[]> = {
    nothing: ['coilGrade', 'boxK'],
    coil_fouling: ['coilGrade', 'fanGrade'],
    condenser_fan: ['fanGrade', 'coilGrade'],
    blocked_air: ['airPathGrade', 'coilGrade', 'roomAirK'],
    recirculation: ['airInK', 'roomAirK'],
    non_condensables: ['offCyclePaGauge', 'condensingClampK', 'liquidLineK'],
    overcharge: ['liquidLineK', 'condensingClampK'],
    low_charge: ['suctionLineK', 'liquidLineK', 'suctionPaGauge'],
    evaporator_coil: ['iceGrade', 'evaporatorCoilGrade', 'evaporatorFanGrade'],
    evaporator_fan: ['evaporatorFanGrade', 'evaporatorCoilGrade'],
    weak_compressor: ['suctionPaGauge', 'dischargeLineK', 'boxK'],
    high_load: ['boxK'],
    head_pressure_control: ['steadyMinutes'],
    not_steady: ['steadyMinutes'],
    reading_fault: ['condensingClampK', 'headPaGauge', 'headAgainPaGauge', 'airAgainK'],
  };
  it.each(CAUSES)('%s: the first of its own that is still open', (cause) => {
    const next = all();
    const [...own] = DECIDING[cause];
    while (own.length > 0) {
      const [first] = own;
      if (first) expect(next(...own)[cause]).toBe(lookWords(first, REACH_IN));
      own.shift();
    }
  });
  it.each<[CauseId, string]>([
    ['high_load', 'Read again when the box is at its set point with the doors shut.'],
    ['head_pressure_control', 'Read again in warmer air, or with the control satisfied.'],
    ['not_steady', 'Read again after 10 to 15 minutes of steady running.'],
    ['reading_fault', 'Try the thermometer in ice water, the gauge off the machine with its hose open, and take the odd entries again.'],
    ['low_charge', 'Look for oil at the joints, and for frost at drier or strainer.'],
    ['weak_compressor', 'Have the compressor’s pumping tested by someone licensed to.'],
    ['blocked_air', 'Look for what stands before the coil: boxes, a filter, a panel.'],
    ['coil_fouling', 'Nothing more to look at: go by what was seen.'],
  ])('%s, with nothing open', (cause, words) => expect(all()()[cause]).toBe(words));
});

describe('a head control', () => {
  const at = (unit: Partial<typeof REACH_IN>, airK: number) => underHeadControl({ ...REACH_IN, ...unit }, airK, 10);
  it('is presumed where nobody knows on units outdoors and remote ones, and nowhere else', () => {
    for (const unit of [{ placement: 'outdoors' }, { kind: 'remote_condensing_unit' }, { hasHeadControl: true }] as const) expect(at(unit, 290)).toBe(true); // prettier-ignore
    for (const unit of [{}, { placement: 'outdoors', hasHeadControl: false }] as const) expect(at(unit, 290)).toBe(false);
  });
  it('sets the head as long as a clean coil would condense less than a kelvin over what it holds', () => {
    expect([at({ hasHeadControl: true }, 295.9), at({ hasHeadControl: true }, 296.1)]).toEqual([true, false]);
    expect(at({ hasHeadControl: true, headControlHoldK: 299 } as Partial<typeof REACH_IN>, 291)).toBe(false);
    expect(holdK(REACH_IN)).toBe(305);
  });
  it.each([
    [false, 'outdoors', 'never thought of'],
    [undefined, 'line', 'hardly thought of'],
    [undefined, 'outdoors', 'thought of'],
  ] as const)('in cold air, control %s, %s: %s', (hasHeadControl, placement, words) => {
    const unit = { ...REACH_IN, hasHeadControl, placement };
    const scene = sceneOf(unit, readingOf(stateAt(unit, 1, F(66))), cleanPrior(unit), { learnt: false });
    const p = (scene && infer(scene, 0))?.probability.head_pressure_control ?? NaN;
    if (words === 'never thought of') expect(p).toBe(0);
    else expect(words === 'thought of' ? p > 0.1 : p > 0 && p < 0.1).toBe(true);
  });
});
