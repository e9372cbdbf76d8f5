import { describe, expect, it } from 'vitest';
import { CAUSE_LABEL, cleanPrior, likelyWords, type Cause, type CauseId, type CondenserUnit, type Reading } from '@/lib/core/condenser';
import { figure } from '@/lib/core/condenser/bands';
import { profileOf } from '@/lib/core/condenser/machine/profiles';
import { assumptionsOf } from '@/lib/core/condenser/words/assumptions';
import { lookWords } from '@/lib/core/condenser/words/looks';
import { cannotSaySentence, sentenceFor } from '@/lib/core/condenser/words/sentence';
import type { Judged } from '@/lib/core/condenser/verdict';
import { CONDITIONS, REACH_IN } from '../../support/condenser';

const RISE = 'Head is 36 °F (20 K) over the air; this unit runs 18 °F (10 K) clean.';
const FIGURES = { riseK: figure(20, 19, 21), cleanRiseK: figure(10, 9, 11), conductanceLost: figure(0.4, 0.28, 0.46) };
const READ: Reading = { at: 0, phase: 'before' };
const weighed = (...of: [CauseId, number][]): Cause[] => of.map(([id, weight]) => ({ id, weight, for: [], against: [], next: '' }));
const said = (j: Judged, causes: Cause[] = [], reading = READ) =>
  sentenceFor(FIGURES, { ...j, next: 'Look there.' }, causes, reading).slice(RISE.length + 1);

describe('the sentence of a reading', () => {
  it('begins with how far head is over the air and how far it is clean', () =>
    expect(sentenceFor(FIGURES, { verdict: 'fine', leading: 'nothing', next: '' }, [], READ).startsWith(`${RISE} `)).toBe(true));

  it.each<[string, Judged, string]>([
    ['a coil to clean', { verdict: 'clean_it', leading: 'coil_fouling' }, 'Degree for degree the coil gives off 40 % (28–46) less heat than clean: clean it.'],
    ['a coil to clean and a fan beside it', { verdict: 'clean_it', leading: 'coil_fouling', also: 'evaporator_fan' }, 'Degree for degree the coil gives off 40 % (28–46) less heat than clean: clean it. Signs of the evaporator fan as well. Look there.'],
    ['a coil to clean and charge short', { verdict: 'clean_it', leading: 'coil_fouling', also: 'low_charge' }, 'Degree for degree the coil gives off 40 % (28–46) less heat than clean: clean it. Signs of a low charge or a restriction as well, which lowers head: the loss may be larger than it looks. Look there.'],
    ['one to watch', { verdict: 'watch', leading: 'coil_fouling' }, 'The coil may have lost some, at most 46 % of the heat it gives off clean: read it again next time.'],
    ['nothing wrong', { verdict: 'fine', leading: 'nothing' }, 'No loss to be seen: at most 46 % of the heat it gives off clean.'],
    ['charge short', { verdict: 'look_elsewhere', leading: 'low_charge' }, 'Signs of a low charge or a restriction, which lowers head and can hide a fouled coil. Look there.'],
    ['a coil before its cleaning that is not the trouble', { verdict: 'look_elsewhere', leading: 'coil_fouling' }, 'Before blaming the coil, look at a fouled coil: possibly that. Look there.'],
  ])('of %s', (_, judged, words) => expect(said(judged)).toBe(words)); // prettier-ignore

  it('after a cleaning that did not help sends elsewhere', () =>
    expect(said({ verdict: 'look_elsewhere', leading: 'coil_fouling' }, [], { ...READ, phase: 'after' })).toBe(
      'Still high after cleaning: look for another cause, or a coil dirty deep inside. Look there.',
    ));

  it.each([
    [0.95, 'almost surely'],
    [0.9, 'probably'],
    [0.61, 'probably'],
    [0.6, 'perhaps'],
    [0.31, 'perhaps'],
    [0.3, 'possibly'],
    [0, 'possibly'],
  ])('says how sure %d is: %s', (p, words) => {
    expect(likelyWords(p)).toBe(words);
    expect(said({ verdict: 'look_elsewhere', leading: 'overcharge' }, weighed(['nothing', 1 - p], ['overcharge', p]))).toBe(
      `Before blaming the coil, look at an overcharge: ${words} that. Look there.`,
    );
  });

  it.each<[string, [CauseId, number][], string]>([
    ['one candidate', [['coil_fouling', 0.7], ['nothing', 0.3]], 'It is probably a fouled coil. Look first: Look there.'],
    ['two unlike', [['coil_fouling', 0.7], ['condenser_fan', 0.2]], 'It is probably a fouled coil, possibly the condenser fan. Look first: Look there.'],
    ['two alike', [['blocked_air', 0.4], ['recirculation', 0.35]], 'It is perhaps blocked air at the condenser, or hot air coming round again. Look first: Look there.'],
    ['a second too light to name', [['coil_fouling', 0.7], ['condenser_fan', 0.08]], 'It is probably a fouled coil. Look first: Look there.'],
    ['the sound machine never', [['nothing', 0.9], ['high_load', 0.09]], 'It is possibly a heavy load or pull-down. Look first: Look there.'],
    ['nothing that can be named', [['nothing', 0.9], ['high_load', 0.05]], 'Something is off. Look first: Look there.'],
  ])('names what it may be: %s', (_, of, words) => expect(said({ verdict: 'look_first', leading: 'coil_fouling' }, weighed(...of))).toBe(words)); // prettier-ignore

  it.each([
    ['no_condensing_reading', 'No head pressure and no clamp on the condenser bend: a rise needs one of them.'],
    ['no_air_reading', 'No air temperature: measure the air entering the coil.'],
    ['not_steady', 'Not running steadily yet: read again after 10 to 15 minutes.'],
    ['head_control', 'In air this cold the head control sets the head, not the coil. Read again in warmer air.'],
    ['water_cooled', 'A water-cooled condenser is not estimated: compare condensing with the water leaving it.'],
    ['above_critical', 'CO₂ above its critical point does not condense: not estimated. Compare the gas leaving its cooler with the air.'],
    ['out_of_range', 'Outside what can be computed. Where head is that high, look at condenser fan, air and coil first.'],
    ['rise_too_small', 'Too close to the air to tell. Was it running under load?'],
    ['impossible_reading', 'The entries cannot all be right: see the questions.'],
    ['unknown_refrigerant', 'The refrigerant is not known, or no numbers for it: enter the one on the nameplate.'],
    ['not_converged', 'The sums did not settle.'],
  ] as const)('that cannot say why: %s', (reason, why) => expect(cannotSaySentence(reason)).toBe(`This reading can’t say. ${why}`)); // prettier-ignore

  it('has a name of its own for each cause', () => {
    const names = Object.values(CAUSE_LABEL);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[a-z][a-z -]+[a-z]$/);
  });
});

describe('what a look asks for', () => {
  it.each([
    ['coilGrade', /lamp through the condenser coil/],
    ['fanGrade', /condenser fan: turning, right way round, full speed/],
    ['airPathGrade', /air goes in and comes out/],
    ['evaporatorFanGrade', /evaporator fan: turning/],
    ['evaporatorCoilGrade', /evaporator coil: dirt/],
    ['iceGrade', /evaporator for ice/],
    ['condensingClampK', /Clamp a bend halfway through the condenser/],
    ['liquidLineK', /liquid line and read the subcooling/],
    ['suctionLineK', /suction line and read the superheat/],
    ['dischargeLineK', /Clamp the discharge line/],
    ['headPaGauge', /Read the head pressure/],
    ['suctionPaGauge', /Read the suction pressure/],
    ['airInK', /air at the coil face/],
    ['roomAirK', /air in the room/],
    ['boxK', /Read the box temperature/],
    ['offCyclePaGauge', /standing pressure with saturation/],
    ['steadyMinutes', /wait for 10 to 15 minutes/],
  ] as const)('%s', (look, words) => expect(lookWords(look, REACH_IN)).toMatch(words));

  it('sends to the middle of an ice machine’s freeze, for its time of running alone', () => {
    const ice: CondenserUnit = { ...REACH_IN, kind: 'ice_machine' };
    expect(lookWords('steadyMinutes', ice)).toBe('Read it in the middle of the freeze, five minutes or more after the last harvest.');
    expect(lookWords('boxK', ice)).toBe('Read the box temperature.');
  });
});

describe('what was taken for granted', () => {
  const known: CondenserUnit = { ...REACH_IN, hasHeadControl: false, nominalCoolingW: 500 };
  const whole: Reading = { at: 0, phase: 'before', headPaGauge: 1e6, gauge: { grade: 'A', spanPa: 3e6 }, airInK: 300, suctionPaGauge: 2e5, boxK: 276, steadyMinutes: 20 }; // prettier-ignore
  const learnt = { ...cleanPrior(REACH_IN), readings: 2 };
  const conditions = { ...CONDITIONS, airProfile: [{ airK: 300, share: 1 }] };
  const profile = profileOf('reach_in', 'medium');
  const taken = (unit: Partial<CondenserUnit>, reading: Partial<Reading>, given: object = {}, baseline = learnt) =>
    assumptionsOf({ ...known, ...unit }, { ...whole, ...reading }, { ...conditions, ...given }, profile, baseline);
  const ALWAYS = [
    'Hot day: 100 °F (38 °C) at the coil, box at 38 °F (3 °C).',
    'Money: 0.2 USD/kWh, clean run time 14 h a day, fouled longer for the same duty.',
    'What grease does to a condenser is extrapolated from tests with dust and with reduced airflow.',
  ];

  it('of a whole reading is the hot day, the money and how grease was come by', () => expect(taken({}, {})).toEqual(ALWAYS));

  it.each<[string, Partial<CondenserUnit>, Partial<Reading>, object, string]>([
    ['air', {}, { airInK: undefined }, {}, 'Coil air taken as room air and 2 °F (1 K): measure it at the coil face for a narrower band.'],
    ['head', {}, { headPaGauge: undefined }, {}, 'Condensing from a clamp on the bend, which reads about 2 °F (1 K) low.'],
    ['gauge', {}, { gauge: undefined }, {}, 'Gauge not named: an error of 1 % of 500 psi (800 psi for high-pressure refrigerants) taken.'],
    ['suction', {}, { suctionPaGauge: undefined }, {}, 'Suction not measured: evaporator as usual for this kind.'],
    ['box', {}, { boxK: undefined }, {}, 'Box taken at its set point.'],
    ['time', {}, { steadyMinutes: undefined }, {}, 'Time of steady running not noted: the band is wider for it.'],
    ['freeze', { kind: 'ice_machine' }, {}, {}, 'Ice machine taken in the middle of a freeze, water at 32 °F (0 °C): read it five minutes or more after a harvest.'],
    ['control', { hasHeadControl: undefined }, {}, {}, 'Not known whether a head control holds the head up in cold air.'],
    ['sealed', { circuitAccess: 'sealed' }, {}, {}, 'Sealed unit read with gauges: each connection lets charge out; a clamp on the bend will do next time.'],
    ['day', {}, {}, { airProfile: undefined }, 'Usual day taken 11 °F (6 K) cooler than the hot one.'],
    ['size', { nominalCoolingW: undefined }, {}, {}, 'Size guessed by kind (500 W of cooling): enter the plate for a narrower energy figure.'],
  ])('says so where it lacks the %s', (_, unit, reading, given, words) => {
    const said = taken(unit, reading, given);
    expect(said.filter((s) => !ALWAYS.includes(s))).toEqual([words]);
    expect(said).toHaveLength(ALWAYS.length + 1);
  }); // prettier-ignore

  it('says that nothing was learnt yet', () =>
    expect(taken({}, {}, {}, cleanPrior(REACH_IN))[0]).toBe(
      'Clean rise is usual for this kind of equipment; no reading after a cleaning yet.',
    ));
  it('blames no gauge that was not used, and no gauges on a sealed unit read by a clamp', () => {
    expect(taken({ circuitAccess: 'sealed' }, { headPaGauge: undefined, gauge: undefined })).toHaveLength(ALWAYS.length + 1);
  });
  it('takes run hours that are known', () => expect(taken({}, {}, { cleanRunHoursPerDay: 9 })[1]).toMatch(/clean run time 9 h a day/));
});
