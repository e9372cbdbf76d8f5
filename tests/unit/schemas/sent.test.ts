import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { EntryEnvelope, PAYLOADS, SyncRequest } from '@/lib/schemas/tablet/entries';
import { SealedWorkSchema } from '@/lib/schemas/tablet/sealed';
import { UploadAsked } from '@/lib/schemas/tablet/files';

/** What a tablet sends, held to its bounds field by field: what fits at the very edge, and what lies just beyond. */

const ID = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a10';
const OTHER = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a11';
const AT = '2026-11-28T10:00:00Z';
const LATER = '2026-11-28T10:30:00+01:00';
const n = (length: number) => 'n'.repeat(length);
const many = <T>(count: number, one: T) => Array.from({ length: count }, () => one);

type Sent = Record<string, unknown>;
const isSent = (value: unknown): value is Sent => typeof value === 'object' && value !== null;
/** The same with one field of it otherwise; `a.b` is a field within a field. */
function having(filled: Sent, [key = '', ...rest]: string[], value: unknown): Sent {
  const inner = filled[key];
  return { ...filled, [key]: rest.length === 0 ? value : having(isSent(inner) ? inner : {}, rest, value) };
}

type Field = [path: string, fits: unknown[], refused: unknown[]];
type Row = [name: string, schema: z.ZodType, filled: Sent, fields: Field[]];

const NO_ID = ['', 'unit-1', null, 7];
const ids = (path: string): Field => [path, [OTHER], NO_ID];
const maybeId = (path: string): Field => [path, [OTHER, null], ['', 'one']];
/** Words: an empty one is possible unless `least` says otherwise. */
const words = (path: string, most: number, least = 0): Field => [
  path,
  [n(most), n(Math.max(1, least)), ...(least === 0 ? [''] : [])],
  [n(most + 1), null, 5, ...(least > 0 ? ['', '  '] : [])],
];
/** A moment of work: what no clock can have meant is refused. */
const moment = (path: string): Field => [
  path,
  ['2000-01-01T00:00:00Z', '2200-01-01T00:00:00Z', LATER],
  ['1999-12-31T23:59:59Z', '2200-01-01T00:00:01Z', 'today', '2026-11-28', null],
];
const clock = (path: string): Field => [path, ['1970-01-01T00:00:00Z', '2400-01-01T00:00:00Z', LATER], ['noon', '2026-11-28', null]];
/** Where zero itself is no answer the smallest thing above it is. */
const above0 = (path: string, most: number, orNull = false): Field => [path, [most, most / 1e6, ...(orNull ? [null] : [])], [0, -1, most * 1.0001, '1', ...(orNull ? [] : [null])]]; // prettier-ignore
const between = (path: string, low: number, high: number, orNull = false): Field => [path, [low, high, ...(orNull ? [null] : [])], [low - 1, high + 1, '1', Number.NaN, ...(orNull ? [] : [null])]]; // prettier-ignore
const oneOf = (path: string, members: string[], orNull = false): Field => [path, [...members, ...(orNull ? [null] : [])], ['', 'other_one', ...(orNull ? [] : [null])]]; // prettier-ignore
const yesNo = (path: string): Field => [path, [true, false], ['yes', 1, null]];
/** What a field holds is closed: a word it does not know is refused, at that field. */
const closed = (path: string, inside: Sent): Field => [path, [], [{ ...inside, surprise: 1 }]];

const GAUGE: [number, number] = [-110_000, 20_000_000];
const WEIGHED = { cylinderId: ID, cylinderWords: '', startKg: 10, endKg: 12 };
const weighed = (start: [number[], number[]], end: [number[], number[]]): Field[] => [
  ['startKg', start[0], [0, -1, 500.1, null, ...start[1]]],
  ['endKg', end[0], [0, -1, 500.1, null, ...end[1]]],
  ['cylinderId', [OTHER], ['', 'one']],
];
const END = { at: '2026-11-28T12:00:00Z', paGauge: 1_000_000, temperatureK: 295 };
const TUBE = { line: 'suction', before: '3/8', now: '1/2', lengthM: 3 };
const tubes = (over: Sent) => [{ ...TUBE, ...over }];
const joint = (over: Sent) => [{ joint: 'copper_copper', count: 2, ...over }];
const fall = (...pairs: [number, number][]) => pairs.map(([minutes, microns]) => ({ minutes, microns }));
const PICTURE = 'a1'.repeat(32);
const ASKED = { field: 'boxK', question: 'Is it?', answer: 'Yes' };

const ROWS: Row[] = [
  ['an arrival', PAYLOADS['visit.start'], { arrivedAt: AT }, [clock('arrivedAt')]],
  ['a finding', PAYLOADS['finding.set'], { unitId: ID, aspect: 'coil', phase: 'found', grade: 'bare', notLookedWhy: '', note: '', replaces: null }, [
    ids('unitId'), maybeId('replaces'), words('note', 2000),
    oneOf('aspect', ['coil']), oneOf('phase', ['found', 'left']),
    ['grade', ['matted'], ['spotless', '']],
  ]],
  ['a reading', PAYLOADS['reading.add'], { unitId: ID, phase: 'before', values: {}, gaugeGrade: null, gaugeSpanPa: null, entered: {}, questioned: [], replaces: null }, [
    ids('unitId'), maybeId('replaces'), oneOf('phase', ['before', 'after']),
    oneOf('gaugeGrade', ['1A', '4A'], true), above0('gaugeSpanPa', 1e8, true),
    between('values.headPaGauge', ...GAUGE), between('values.boxK', 200, 400), between('values.dischargeLineK', 150, 700), between('values.ampsA', 0, 1000), between('values.steadyMinutes', 0, 1440), between('values.harvestMinutes', 0, 240), between('values.suctionLineK', 150, 600),
    closed('values', {}),
    ['entered', [{ boxK: { text: n(20), unit: n(10) } }, {}], [{ boxK: { text: n(21), unit: 'F' } }, { boxK: { text: '38', unit: n(11) } }, { boxK: { text: '38' } }, { boxK: { text: '38', unit: 'F', more: 1 } }, { other: { text: '38', unit: 'F' } }]],
    ['questioned', [many(40, ASKED), [{ ...ASKED, question: n(2000), answer: '' }]], [many(41, ASKED), [{ ...ASKED, question: n(2001) }], [{ ...ASKED, answer: n(2001) }], [{ ...ASKED, field: 'other' }], [{ ...ASKED, more: 1 }]]],
  ]],
  ['what became of a unit', PAYLOADS['unit.outcome'], { unitId: ID, outcome: 'could_not_reach', reason: 'Locked' }, [ids('unitId'), oneOf('outcome', ['seen', 'gone', 'could_not_reach']), words('reason', 500, 1)]],
  ['a unit', PAYLOADS['unit.add'], { unitId: ID, name: 'Reach-in', kind: 'reach_in', placement: 'line', refrigerant: 'R404A' }, [
    ids('unitId'), maybeId('replacesId'), words('name', 120, 1),
    ['kind', ['ice_machine'], ['fridge', '', null]], ['placement', ['wok'], ['moon', null]],
    ['refrigerant', ['R290', n(20)], ['', n(21), null]],
    ['taskIds', [{}, { coil_cleaning: OTHER }], [{ coil_cleaning: 'x' }, { other: OTHER }]],
    between('chargeKg', 0.005, 500, true), between('boxSetK', 213.15, 298.15, true), ['runHoursPerDay', [0.5, 24, null], [0.4, 24.1, '8']],
    ['headControl', [true, false, null], ['yes']], ['roofWork', [true, false], ['on', null]],
    ['airProfile', ['season', null], ['windy']], ['condenserKind', ['fin_and_tube'], [null, 'other']],
    ['make', [n(120), ''], [n(121)]], ['notes', [n(2000)], [n(2001)]],
  ]],
  ['a task taken on', PAYLOADS['task.take'], { taskId: ID, unitId: ID }, [ids('taskId'), ids('unitId')]],
  ['a task done', PAYLOADS['task.done'], { taskId: ID }, [ids('taskId')]],
  ['a task not done', PAYLOADS['task.not_done'], { taskId: ID, reason: 'Fryer in front' }, [ids('taskId'), words('reason', 500, 1)]],
  ['a picture', PAYLOADS['photo.attach'], { unitId: null, aspect: null, phase: 'after', sha256: PICTURE, bytes: 1, takenAt: AT }, [
    maybeId('unitId'), oneOf('aspect', ['coil'], true), oneOf('phase', ['before', 'after']), moment('takenAt'),
    ['sha256', ['0f'.repeat(32)], [PICTURE.slice(1), `${PICTURE}0`, 'g1'.repeat(32), null]],
    ['bytes', [9_000_000], [0, -1, 1.5, null]],
  ]],
  ['a name signed', PAYLOADS['signature.set'], { nobodyThere: false, signedBy: 'Jo', png: 'AAAA' }, [
    words('signedBy', 200), ['png', ['A'.repeat(300_000)], ['A'.repeat(300_004), 'not base64!', null]],
  ]],
  ['a part used', PAYLOADS['part.use'], { unitId: ID, what: 'Fan motor', quantity: 1 }, [
    maybeId('unitId'), maybeId('partId'), words('what', 200, 1), above0('quantity', 10_000), oneOf('place', ['van', 'shop'], true),
  ]],
  ['something to follow up', PAYLOADS['follow_up.add'], { unitId: ID, what: 'Gasket', urgency: 'soon', note: '' }, [
    ids('unitId'), words('what', 300, 1), words('note', 2000), ['urgency', ['now'], ['', 'someday', null]],
  ]],
  ['what became of a job', PAYLOADS['job.outcome'], { jobId: ID, outcome: 'done', note: '' }, [ids('jobId'), words('note', 500), ['outcome', ['found_right', 'needs_quote'], ['', 'maybe', null]]]],
  ['a warning about food', PAYLOADS['food_warning.add'], { unitId: ID, boxK: 285, toldTo: 'The cook', toldAt: AT, note: '' }, [
    ids('unitId'), between('boxK', 200, 400), words('toldTo', 200, 1), moment('toldAt'), words('note', 2000),
  ]],
  ['a step left out', PAYLOADS['sealed.step'], { recordId: ID, unitId: ID, step: 'braze', work: null, skippedWhy: 'No joint', certificateId: null, overruledBy: '', overruledWhy: '', note: '' }, [
    ids('recordId'), ids('unitId'), maybeId('certificateId'), words('skippedWhy', 500, 1), words('overruledBy', 200), words('overruledWhy', 500), words('note', 2000),
    ['step', ['charge'], ['', 'sing', null]],
  ]],
  ['something that happened', PAYLOADS['event.add'], { unitId: ID, kind: 'high_pressure_trip', at: AT, note: '', cause: null }, [
    ids('unitId'), moment('at'), words('note', 2000), ['kind', [], ['', 'party', null]], ['cause', [null], ['', 'luck']],
  ]],
  ['an entry struck', PAYLOADS['entry.strike'], { what: 'part', entryId: ID, why: 'Wrong unit' }, [ids('entryId'), words('why', 500, 1), ['what', ['follow_up', 'event', 'photo'], ['', 'visit', null]]]],
  ['a visit closed', PAYLOADS['visit.close'], { leftAt: AT, taskIds: [] }, [clock('leftAt'), ['taskIds', [many(2000, ID)], [many(2001, ID), ['x'], null]]]],

  ['isolating', SealedWorkSchema, { step: 'isolate', provenDead: true, flammable: { ventilated: true, detector: true, noIgnition: true, roomM2: 30 } }, [
    yesNo('provenDead'), yesNo('flammable.ventilated'), yesNo('flammable.detector'), yesNo('flammable.noIgnition'), above0('flammable.roomM2', 100_000, true),
    ['flammable', [null], [true]], closed('flammable', { ventilated: true, detector: true, noIgnition: true, roomM2: null }),
  ]],
  ['recovering', SealedWorkSchema, { step: 'recover', levelPaGauge: -30_000, recoveredFor: 'reuse', ...WEIGHED }, [
    between('levelPaGauge', ...GAUGE, true), oneOf('recoveredFor', ['reclaim', 'destruction']),
    ...weighed([[12, 0.1], []], [[500, 10], []]),
  ]],
  ['opening', SealedWorkSchema, { step: 'open', how: 'Cut' }, [words('how', 300, 1)]],
  ['brazing', SealedWorkSchema, { step: 'braze', joints: joint({}), nitrogen: true, wetRag: false, fireWatchMinutes: 30 }, [
    yesNo('nitrogen'), yesNo('wetRag'), between('fireWatchMinutes', 0, 100_000),
    ['joints', [[], many(8, joint({})[0]), joint({ count: 1 }), joint({ count: 99 })], [many(9, joint({})[0]), joint({ count: 0 }), joint({ count: 100 }), joint({ count: 1.5 }), joint({ joint: 'wood' }), joint({ more: 1 })]],
  ]],
  ['a drier', SealedWorkSchema, { step: 'drier', drier: '', drierBeforeM3: null, drierNowM3: null, condenserBeforeM3: null, condenserNowM3: null, capillary: { boreM: 0.001, lengthM: 2 }, tubes: [] }, [
    words('drier', 300), above0('drierBeforeM3', 0.1, true), above0('drierNowM3', 0.1, true), above0('condenserBeforeM3', 0.1, true), above0('condenserNowM3', 0.1, true),
    above0('capillary.boreM', 0.01), above0('capillary.lengthM', 20), ['capillary', [null], [0]], closed('capillary', { boreM: 0.001, lengthM: 2 }),
    ['tubes', [many(12, TUBE), tubes({ before: null, now: null }), tubes({ lengthM: 200 }), tubes({ line: 'liquid' })], [many(13, TUBE), tubes({ lengthM: 0 }), tubes({ lengthM: 200.1 }), tubes({ line: 'drain' }), tubes({ now: '5/7' }), tubes({ before: '' }), tubes({ more: 1 })]],
  ]],
  ['a pressure test', SealedWorkSchema, { step: 'pressure_test', platePaGauge: 2_000_000, gaugeDivisionPa: 10_000, start: { ...END, at: AT }, end: END }, [
    between('platePaGauge', ...GAUGE, true), above0('gaugeDivisionPa', 1e6),
    between('start.paGauge', ...GAUGE), between('end.paGauge', ...GAUGE), between('start.temperatureK', 200, 400), between('end.temperatureK', 200, 400),
    ['start.at', ['2026-11-28T11:59:59Z'], ['then']], ['end.at', [], ['2026-11-28', 'later']], closed('end', END),
  ]],
  ['a vacuum', SealedWorkSchema, { step: 'evacuate', limitMicrons: 500, readings: fall([0, 300], [10, 400]) }, [
    above0('limitMicrons', 20_000),
    ['readings', [Array.from({ length: 2000 }, (_, i) => ({ minutes: i, microns: 400 })), fall([0, 1e6], [100_000, 0.1])], [Array.from({ length: 2001 }, (_, i) => ({ minutes: i, microns: 400 })), fall([0, 300]), fall([10, 300], [10, 400]), fall([10, 300], [5, 400]), fall([0, 300], [10, 0]), fall([0, 300], [10, 1e6 + 1]), fall([-1, 300], [10, 400]), fall([0, 300], [100_001, 400])]],
  ]],
  ['charging', SealedWorkSchema, { step: 'charge', plateKg: 1, targetKg: 1, band: [0.9, 1.1], ...WEIGHED, startKg: 12, endKg: 11 }, [
    above0('plateKg', 500, true), above0('targetKg', 500, true), ['band', [null, [1, 1]], [[1], [1, 2, 3], ['1', 2], 1]],
    ...weighed([[500, 11], []], [[12, 0.1], []]),
  ]],
  ['a running check', SealedWorkSchema, { step: 'running_check', readingId: ID, minutes: 15 }, [ids('readingId'), between('minutes', 0, 100_000)]],

  ['an entry', EntryEnvelope, { id: ID, seq: 1, kind: 'task.done', version: 1, visitId: ID, madeAt: AT, basedOn: AT, payload: 'anything at all' }, [
    ids('id'), ids('visitId'), ['seq', [9e15], [0, -1, 1.5, '1']], ['version', [9], [0, -1, 1.5]], words('kind', 40), clock('madeAt'), clock('basedOn'),
  ]],
  ['a talk with the office', SyncRequest, { device: { id: ID, holder: OTHER, name: 'Tablet', appVersion: '1' }, sentAt: AT, entries: [] }, [
    ids('device.id'), ids('device.holder'), words('device.name', 120), words('device.appVersion', 40), ['sentAt', ['1971-01-01T00:00:00Z', LATER], ['now']],
  ]],
  ['a file asked about', UploadAsked, { sha256: PICTURE, pieces: '1' }, [['sha256', ['0f'.repeat(32)], [`${PICTURE}0`, PICTURE.slice(1), `x${PICTURE}`, `${PICTURE} `, 'G1'.repeat(32)]], ['pieces', ['64', 1], ['0', '65', '1.5', 'one']]]],
]; // prettier-ignore

const told = (value: unknown) => (JSON.stringify(value) ?? 'nothing').slice(0, 40);

describe.each(ROWS)('%s', (_, schema, filled, fields) => {
  it('goes in as it is filled here, and with no field missing', () => {
    expect(schema.safeParse(filled).error).toBeUndefined();
    for (const key of Object.keys(filled).filter((k) => k !== 'payload')) {
      const without = Object.fromEntries(Object.entries(filled).filter(([k]) => k !== key));
      expect(schema.safeParse(without).success, `without ${key}`).toBe(false);
    }
  });
  for (const [path, fits, refused] of fields)
    it(`holds ${path} to its bounds`, () => {
      const read = (value: unknown) => schema.safeParse(having(filled, path.split('.'), value));
      for (const value of fits) expect(read(value).error, `${path} ${told(value)}`).toBeUndefined();
      for (const value of refused) {
        const at = read(value).error?.issues.map((issue) => issue.path[0]) ?? [];
        expect(at, `${path} ${told(value)}`).not.toEqual([]);
        // Nothing else is found wrong with what is otherwise as it was; where two fields are at odds it is the whole.
        expect(at.filter((key) => key !== path.split('.')[0] && key !== undefined)).toEqual([]);
      }
    });
});

const wordsOf = (schema: z.ZodType, filled: unknown) => schema.safeParse(filled).error?.issues.map((issue) => issue.message) ?? [];
const rowOf = (name: string) => {
  const [, schema, filled] = ROWS.find(([of]) => of === name) ?? expect.fail(`there is no row ${name}`);
  return (over: Sent) => wordsOf(schema, { ...filled, ...over });
};

describe('what is at odds with itself, in words', () => {
  it('says so of a finding, a unit, a name signed, a job, a happening and a time', () => {
    const finding = rowOf('a finding');
    expect(finding({ grade: null, notLookedWhy: 'Iced over' })).toEqual([]);
    for (const odd of [{ notLookedWhy: 'Iced over' }, { grade: null }]) expect(finding(odd)).toEqual(['A finding has a grade, or says why it was not looked at.']); // prettier-ignore
    expect(finding({ aspect: 'drain' })).toEqual(['That is not one of the grades.']);
    expect(rowOf('what became of a unit')({ outcome: 'seen', reason: '' })).toEqual([]);
    for (const outcome of ['gone', 'could_not_reach'])
      expect(rowOf('what became of a unit')({ outcome, reason: '' })).toEqual(['Say why.']);
    expect(rowOf('a task not done')({ reason: ' ' })).toEqual(['Say why.']);
    const signed = rowOf('a name signed');
    expect(signed({ nobodyThere: true, png: null, signedBy: '' })).toEqual([]);
    for (const odd of [{ nobodyThere: true }, { png: null }]) expect(signed(odd)).toEqual(['Either a signature or nobody there.']);
    const job = rowOf('what became of a job');
    for (const outcome of ['needs_part', 'not_done']) {
      expect(job({ outcome })).toEqual(['Say which part, or why not.']);
      expect(job({ outcome, note: 'F-1' })).toEqual([]);
    }
    const event = rowOf('something that happened');
    expect(event({ cause: 'fan' })).toEqual([]);
    expect(event({ kind: 'note', cause: 'fan' })).toEqual(['Only a trip has a cause.']);
    expect(event({ at: '1999-01-01T00:00:00Z' })).toEqual(['That is no time at which it can have been.']);
    expect(rowOf('a file asked about')({ index: '9' })).toEqual([]);
  });
  it('says so of a step of a repair', () => {
    const open = { step: 'open', how: 'Cut' };
    const step = rowOf('a step left out');
    expect(step({ step: 'open', work: open, skippedWhy: '' })).toEqual([]);
    for (const odd of [{ skippedWhy: '' }, { step: 'open', work: open }]) expect(step(odd)).toEqual(['A step was done, or says why it was left out.']); // prettier-ignore
    expect(step({ work: open, skippedWhy: '' })).toEqual(['What was done belongs to another step.']);
    for (const work of ['recovering', 'charging'].map(rowOf)) {
      expect(work({ cylinderId: null, cylinderWords: 'A rented one' })).toEqual([]);
      for (const odd of [{ cylinderId: null }, { cylinderWords: 'Too' }]) expect(work(odd)).toEqual(['A cylinder on file, or one named in words.']); // prettier-ignore
      expect(work({ endKg: 10.5, startKg: 10.5 })).toEqual([]);
    }
    expect(rowOf('recovering')({ startKg: 12.1 })).toEqual(['A cylinder weighs more after recovering into it.']);
    expect(rowOf('charging')({ endKg: 12.1 })).toEqual(['A cylinder weighs less after charging from it.']);
    const test = rowOf('a pressure test');
    for (const at of [END.at, '2026-11-28T12:00:01Z']) expect(test({ start: { ...END, at } })).toEqual(['A pressure test ends after it began.']); // prettier-ignore
    const late = 'Each reading is later than the one before.';
    expect(rowOf('a vacuum')({ readings: fall([0, 300], [10, 400], [10, 500]) })).toEqual([late]);
    expect(rowOf('a vacuum')({ readings: fall([0, 300], [0, 400]) })).toEqual([late]);
  });
  it('keeps a word that nobody knows out of what is filed', () => {
    const open = new Set(['a file asked about', 'an entry', 'a talk with the office']);
    for (const [name, schema, filled] of ROWS.filter(([of]) => !open.has(of))) expect(schema.safeParse({ ...filled, surprise: 1 }).success, name).toBe(false); // prettier-ignore
  });
});

describe('what a tablet is helped with', () => {
  it('brings a clock that is wholly wrong to the nearest time that can be', () => {
    const read = (arrivedAt: string) => PAYLOADS['visit.start'].parse({ arrivedAt });
    expect(read('1970-01-01T00:00:00Z')).toEqual({ arrivedAt: '2000-01-01T00:00:00.000Z' });
    expect(read('2400-01-01T00:00:00Z')).toEqual({ arrivedAt: '2200-01-01T00:00:00.000Z' });
    expect(read(LATER)).toEqual({ arrivedAt: '2026-11-28T09:30:00.000Z' });
  });
  it('reads the older word for entries, but not over the newer', () => {
    const talk = { device: { id: ID, holder: OTHER, name: 'T', appVersion: '1' }, sentAt: AT };
    const entry = { id: ID, seq: 1, kind: 'task.done', version: 1, visitId: ID, madeAt: AT, basedOn: AT, payload: { any: 1 } };
    const read = (sent: object) => SyncRequest.safeParse({ ...talk, ...sent }).data?.entries.map((one) => [one.seq, one.payload]);
    expect(read({ operations: [entry] })).toEqual([[1, { any: 1 }]]);
    expect(read({ operations: [entry], entries: [] })).toEqual([]);
    expect(read({ entries: many(200, entry) })).toHaveLength(200);
    expect(read({ entries: many(201, entry) })).toBeUndefined();
    expect(read({})).toBeUndefined();
    for (const odd of [null, 'entries', 7, [entry]]) expect(SyncRequest.safeParse(odd).success).toBe(false);
  });
});
