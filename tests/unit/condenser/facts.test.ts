import { describe, expect, it } from 'vitest';
import { cleanPrior, type CondenserUnit, type PastLoss, type Reading } from '@/lib/core/condenser';
import { factsOf } from '@/lib/core/condenser/causes/facts';
import { infer } from '@/lib/core/condenser/inference/infer';
import { sceneOf } from '@/lib/core/condenser/inference/scene';
import { measuredOf } from '@/lib/core/condenser/readings/measured';
import { F, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const DAY = 86_400_000;
const air = F(85);
function facts(more: Partial<Reading> = {}, { left = 0.9, unit = REACH_IN, history = [] as PastLoss[] } = {}) {
  const scene = sceneOf(unit, readingOf(stateAt(unit, left, air), more), cleanPrior(unit), { learnt: false, history });
  const belief = scene && infer(scene, 0);
  const measured = scene && measuredOf(scene);
  if (!belief || !measured) throw new Error('no belief');
  return factsOf(belief, measured);
}
const words = (...given: Parameters<typeof facts>) => facts(...given).map((f) => f.text);
const state = stateAt(REACH_IN, 0.9, air);

describe('what is told of a reading', () => {
  it.each<[string, Partial<Reading>, string]>([
    ['a bend 6 K under the gauge', { condensingClampK: state.condensingK - 6 }, 'Gauge says 11 °F (6 K) more than the bend: air adds its own pressure, or the gauge is off'],
    ['a bend 3 K under it', { condensingClampK: state.condensingK - 3 }, 'Gauge and bend agree'],
    ['a bend 5 K over it', { condensingClampK: state.condensingK + 5 }, 'Bend reads 9 °F (5 K) hotter than the gauge allows: one of the two is wrong'],
    ['a bend 2 K over it', { condensingClampK: state.condensingK + 2 }, 'Gauge and bend agree'],
    ['liquid 10 K under condensing', { liquidLineK: state.condensingK - 10 }, 'Subcooling 18 °F (10 K): liquid is backed up in the coil, or air reads as subcooling'],
    ['liquid 5 K under it', { liquidLineK: state.condensingK - 5 }, 'Subcooling 9 °F (5 K) is usual'],
    ['liquid 1 K under it', { liquidLineK: state.condensingK - 1 }, 'Subcooling 2 °F (1 K): no full liquid line'],
    ['liquid at it', { liquidLineK: state.condensingK }, 'Subcooling none: no full liquid line'],
    ['suction line 25 K over evaporating', { suctionLineK: state.evaporatingDewK + 25 }, 'Superheat 45 °F (25 K): the evaporator is starved'],
    ['suction line 10 K over it', { suctionLineK: state.evaporatingDewK + 10 }, 'Superheat 18 °F (10 K) is usual'],
    ['suction line 2 K over it', { suctionLineK: state.evaporatingDewK + 2 }, 'Superheat 4 °F (2 K): liquid is not boiled off'],
    ['suction line at it', { suctionLineK: state.evaporatingDewK }, 'Superheat none: liquid is not boiled off'],
    ['a box 5 K warm', { boxK: REACH_IN.boxSetPointK + 5 }, 'Box is 9 °F (5 K) over its set point'],
    ['a box 2 K warm', { boxK: REACH_IN.boxSetPointK + 2 }, 'Box is at its set point'],
    ['a room 5 K cooler', { roomAirK: air - 5 }, 'Air at the coil is 9 °F (5 K) warmer than the room'],
    ['a room 2 K cooler', { roomAirK: air - 2 }, 'Air at the coil is as cool as the room'],
    ['a bare coil', { coilGrade: 'bare' }, 'Coil found bare'],
    ['a packed coil', { coilGrade: 'packed' }, 'Coil found packed'],
    ['a sound fan', { fanGrade: 'sound' }, 'Condenser fan found sound'],
    ['a worn fan', { fanGrade: 'worn' }, 'Condenser fan found worn'],
    ['an open air path', { airPathGrade: 'open' }, 'Air path of the condenser found open'],
    ['a narrow air path', { airPathGrade: 'narrowed' }, 'Air path of the condenser found narrowed'],
    ['an evaporator fan that stands', { evaporatorFanGrade: 'failed' }, 'Evaporator fan found failed'],
    ['an evaporator fan that turns', { evaporatorFanGrade: 'sound' }, 'Evaporator fan found sound'],
    ['a choked evaporator', { evaporatorCoilGrade: 'choked' }, 'Evaporator coil found choked'],
    ['no word on its time', { steadyMinutes: undefined }, 'How long it had been running was not noted'],
  ])('%s', (_, more, text) => expect(words(more)).toContain(text)); // prettier-ignore

  it('is silent of what was not read', () => {
    const silent = words({ liquidLineK: undefined, suctionPaGauge: undefined, suctionLineK: undefined, boxK: undefined });
    expect(silent).toHaveLength(1);
    expect(silent[0]).toMatch(/^(Condensing|Head)/);
  });
  it('holds no ice machine to a set point', () => {
    const unit: CondenserUnit = { ...REACH_IN, kind: 'ice_machine', boxSetPointK: 272 };
    expect(words({}, { unit }).filter((t) => t.startsWith('Box'))).toEqual([]);
  });
  it.each([
    ['far under clean', 0.5, 'Condensing runs higher over the air than clean'],
    ['clean', 1, 'Condensing over the air is what a clean coil gives'],
    ['far over clean', 2.2, 'Head lower than even a clean coil gives'],
  ])('by how far head is up, with the conductance %s', (_, left, text) => expect(words({}, { left })[0]).toBe(text));
});

describe('what each speaks for and against', () => {
  const of = (more: Partial<Reading>, start: string) => facts(more).find((f) => f.text.startsWith(start));
  it.each<[Partial<Reading>, string, string[], string[]]>([
    [{ coilGrade: 'filmed' }, 'Coil found', [], ['coil_fouling']],
    [{ coilGrade: 'furred' }, 'Coil found', ['coil_fouling'], ['nothing']],
    [{ fanGrade: 'sound' }, 'Condenser fan', [], ['condenser_fan']],
    [{ fanGrade: 'failed' }, 'Condenser fan', ['condenser_fan'], []],
    [{ airPathGrade: 'open' }, 'Air path', [], ['blocked_air']],
    [{ airPathGrade: 'blocked' }, 'Air path', ['blocked_air'], []],
    [{ evaporatorFanGrade: 'sound' }, 'Evaporator fan', [], ['evaporator_fan']],
    [{ evaporatorFanGrade: 'worn' }, 'Evaporator fan', ['evaporator_fan'], []],
    [{ evaporatorCoilGrade: 'clogged' }, 'Evaporator coil', ['evaporator_coil'], []],
    [{ evaporatorCoilGrade: 'dusty' }, 'Evaporator coil', [], ['evaporator_coil']],
    [{ roomAirK: air - 6 }, 'Air at the coil', ['recirculation'], []],
    [{ roomAirK: air }, 'Air at the coil', [], ['recirculation']],
    [{ steadyMinutes: undefined }, 'How long', ['not_steady'], []],
  ])('%o', (more, start, pro, contra) => expect(of(more, start)).toMatchObject({ for: pro, against: contra }));
});

describe('a loss against the reading before', () => {
  const before = (days: number, lost: number): PastLoss[] => [{ at: Date.UTC(2026, 5, 1) - days * DAY, lost, sd: 0.03 }];
  const last = (days: number, lost: number, left: number) => words({}, { left, history: before(days, lost) }).at(-1);
  it('that came within days is a jump', () => expect(last(3, 0.02, 0.5)).toMatch(/^Jumped by \d+ % in 3 days: a jump is not a trend$/));
  it('that came over months came on over weeks', () => expect(last(90, 0.2, 0.6)).toBe('The loss came on over weeks'));
  it('where hardly any was and hardly any is says nothing', () => expect(last(90, 0.03, 0.97)).not.toMatch(/loss|Jump/));
  it('is not held against a reading of later', () => expect(last(-3, 0.02, 0.5)).not.toMatch(/loss|Jump/));
});
