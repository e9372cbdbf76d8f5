import { beforeAll, describe, expect, it } from 'vitest';
import { cleanPrior } from '../../lib/core/condenser';
import { followed, taken } from './judge/asked';
import { makeCase, type Case } from './world/case';
import { Chance } from './world/chance';
import { ampsOf, motorOf } from './world/motor';

// Cases of part B, which judges nothing here: whether what is asked for is taken as it stands.
let gas: Case;
beforeAll(() => {
  const made = makeCase('B', 30_001, { state: 'gas' });
  if (!made) throw new Error('does not stand');
  gas = made;
});

describe('what is asked for, taken', () => {
  it('is of the same machine at the same moment', () => {
    const reading = gas.readings.full;
    const seen = { coilGrade: 'bare' } as const;
    expect(taken(gas, reading, 'condensingClampK', seen)).toEqual({ ...reading, condensingClampK: gas.readings.clamps.condensingClampK });
    expect(taken(gas, reading, 'coilGrade', seen)).toEqual({ ...reading, coilGrade: 'bare' });
    expect(taken(gas, reading, 'offCyclePaGauge', seen)).toEqual({ ...reading, ...gas.standing });
  });

  it('is read again with sound instruments of another van', () => {
    const bad = makeCase('B', 30_011, { state: 'bad_instrument' });
    if (!bad) throw new Error('does not stand');
    for (const { again, readings } of [gas, bad]) {
      expect(taken(gas, gas.readings.full, 'airAgainK', {})).toEqual({ ...gas.readings.full, airAgainK: gas.again.airAgainK });
      expect(Math.abs(again.airAgainK - (readings.full.airInK ?? NaN))).toBeLessThan(12);
    }
    const apart = ({ again, readings: { full } }: Case) => [Math.abs(again.airAgainK - (full.airInK ?? NaN)) / 4, Math.abs(again.headAgainPaGauge / (full.headPaGauge ?? NaN) - 1) / 0.07]; // prettier-ignore
    expect(Math.max(...apart(gas))).toBeLessThan(1);
    expect(Math.max(...apart(bad))).toBeGreaterThan(1);
  });

  it('is nothing where nothing was asked, it was read already or nobody can take it', () => {
    expect(taken(gas, gas.readings.full, undefined, {})).toBeNull();
    expect(taken(gas, gas.readings.full, 'headPaGauge', {})).toBeNull();
    expect(taken(gas, gas.readings.full, 'iceGrade', {})).toBeNull();
  });

  it('says of a machine still settling that it ran a few minutes, of any other twenty', () => {
    const { steadyMinutes: _, ...silent } = gas.readings.full;
    expect(taken(gas, silent, 'steadyMinutes', {})?.steadyMinutes).toBe(20);
    expect(taken({ ...gas, state: 'not_steady' }, silent, 'steadyMinutes', {})?.steadyMinutes).toBeLessThan(10);
  });

  it('goes on from one look to the next', () => {
    const answers = followed(gas, gas.readings.head_air, cleanPrior(gas.unit), { coilGrade: 'bare', fanGrade: 'sound' }, 3);
    expect(answers).toHaveLength(3);
    const asked = answers.map((a) => (a.status === 'ok' ? a.lookNext[0]?.look : a.reason));
    expect(new Set(asked).size).toBeGreaterThan(1);
  });

  it('has gas stand above saturation, less than it ran above it', () => {
    const sound = makeCase('B', 30_001, { state: 'clean' });
    expect(sound).not.toBeNull();
    expect(gas.standing.offCyclePaGauge).toBeGreaterThan(0);
    expect(gas.standing.offCyclePaGauge).toBeLessThan(gas.readings.full.headPaGauge ?? 0);
  });
});

describe('a motor on its mains', () => {
  const motor = () => motorOf(new Chance('motor', 'test', 1), 400);
  it('draws more for more power, but less than in proportion, and not nothing without load', () => {
    const [idle, half, whole] = [0, 200, 400].map((w) => ampsOf(motor(), w));
    expect(idle).toBeGreaterThan(1);
    expect(half).toBeGreaterThan(idle ?? 0);
    expect(whole).toBeGreaterThan(half ?? 0);
    expect((whole ?? 0) / (half ?? 1)).toBeLessThan(2);
  });

  it('shows other amperes on another visit', () => {
    const one = motor();
    expect(ampsOf(one, 400)).not.toBe(ampsOf(one, 400));
  });
});
