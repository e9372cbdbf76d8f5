import { describe, expect, it } from 'vitest';
import {
  ENTERED_EVENTS,
  ENTRY_LABEL,
  JOB_OUTCOMES,
  JOB_OUTCOME_LABEL,
  LEFT_HOW,
  OUTCOME_ASKS_WHY,
  UNIT_EVENT_LABEL,
  URGENCIES,
  URGENCY_LABEL,
} from '@/lib/core/entries/entries';
import { FIELD_INFO, READING_FIELDS, readingSpan } from '@/lib/core/entries/reading-fields';
import { entrySentence, isPng, typedLines } from '@/lib/core/entries/words';
import { UNIT_KEYS, unitField } from '@/lib/core/equipment/unit-fields';
import { PART_PLACE_LABEL } from '@/lib/core/parts/places';
import { TRIP_CAUSE_LABEL } from '@/lib/core/findings/trip-causes';

// One reader of degrees Celsius and bar, one of degrees Fahrenheit and psig; a clock of Greenwich.
const NAMES: Record<string, string> = { u1: 'Fry line', t1: 'Coil cleaning', j1: 'New gasket', c1: 'Cylinder 4', e0: 'Fan belt' };
const UNITS = { C: { temperature: 'C', pressure: 'bar', mass: 'g' }, F: { temperature: 'F', pressure: 'psig', mass: 'oz' } } as const;
const reader = (temperature: 'C' | 'F') => ({
  units: UNITS[temperature],
  moment: (ms: number) => new Date(ms).toISOString().slice(11, 16),
  name: (id: string) => NAMES[id],
});
const lines = (kind: string, payload: unknown, units: 'C' | 'F' = 'F') => typedLines(kind, payload, reader(units));
const told = (kind: string, payload: unknown) => {
  const { lines: all, whole } = lines(kind, payload);
  return [...all.map(([label, value]) => `${label}: ${value}`), ...(whole ? [] : ['not whole'])];
};
const sentence = (kind: string, payload: unknown, units: 'C' | 'F' = 'F') => entrySentence(kind, payload, reader(units));
const at = '2026-11-25T15:05:00.000Z';

const RECOVER = { step: 'recover', cylinderId: null, cylinderWords: 'grey one', startKg: 5, endKg: 5.2, levelPaGauge: null, recoveredFor: 'reclaim' }; // prettier-ignore
const SEALED = { recordId: 'r1', unitId: 'u1', step: 'open', work: { step: 'open', how: 'Cut at the drier' }, skippedWhy: '', certificateId: 'x1', overruledBy: '', overruledWhy: '', note: '' }; // prettier-ignore

describe('each kind of entry, line by line', () => {
  it.each([
    ['visit.start', { arrivedAt: at }, ['Arrived: 15:05']],
    ['visit.close', { leftAt: at, taskIds: ['t1', 't2'] }, ['Left: 15:05', 'Tasks on the tablet: 2']],
    ['finding.set', { unitId: 'u1', aspect: 'coil', phase: 'left', grade: 'matted', notLookedWhy: '', note: ' Bent fins ', replaces: 'e0' },
      ['What: Condenser coil', 'When: as left', 'Grade: matted', 'Note: Bent fins']],
    ['finding.set', { unitId: 'u1', aspect: 'coil', phase: 'found', grade: null, notLookedWhy: 'Riveted shut', note: '', replaces: null },
      ['What: Condenser coil', 'When: on arrival', 'Not looked at, because: Riveted shut']],
    ['unit.outcome', { unitId: 'u1', outcome: 'seen', reason: '' }, ['Reached: seen']],
    ['unit.outcome', { unitId: 'u9', outcome: 'gone', reason: 'Sold' }, ['Unit: not on file', 'Reached: gone', 'Why: Sold']],
    ['unit.outcome', { unitId: 'u1', outcome: 'could_not_reach', reason: 'Stock' }, ['Reached: could not reach', 'Why: Stock']],
    ['task.take', { unitId: 'u1', taskId: 't1' }, ['Task: Coil cleaning']],
    ['task.done', { taskId: 't9' }, ['Task: not on file']],
    ['task.not_done', { taskId: 't1', reason: 'Locked' }, ['Task: Coil cleaning', 'Why: Locked']],
    ['photo.attach', { unitId: 'u1', aspect: null, phase: 'before', sha256: 'aa', bytes: 1025, takenAt: at },
      ['Of: whole unit', 'When: before cleaning', 'Taken: 15:05', 'Size: 2 kB']],
    ['photo.attach', { unitId: null, aspect: 'drain', phase: 'after', sha256: 'aa', bytes: 1024, takenAt: at },
      ['Of: Drain and pan', 'When: after cleaning', 'Taken: 15:05', 'Size: 1 kB']],
    ['signature.set', { nobodyThere: true, signedBy: '', png: null }, ['Who was there: nobody']],
    ['signature.set', { nobodyThere: false, signedBy: 'Ines', png: 'iVBORw0KGgoAAAA=' }, ['Signed by: Ines', 'Signature: drawn']],
    ['part.use', { unitId: null, what: 'Belt', quantity: -1.5, partId: 'p1', place: 'van' }, ['Part: Belt', 'How many: −1.5', 'Taken from: the van']],
    ['follow_up.add', { unitId: 'u1', what: 'New gasket', urgency: 'quote', note: 'Left door' },
      ['What: New gasket', 'When: Quote first', 'Note: Left door']],
    ['job.outcome', { jobId: 'j1', outcome: 'needs_part', note: 'Motor' }, ['Job: New gasket', 'What became of it: Needs a part', 'Note: Motor']],
    ['food_warning.add', { unitId: 'u1', boxK: 280, toldTo: 'Ines', toldAt: at, note: '' }, ['Box: 44.3 °F', 'Told to: Ines', 'Told: 15:05']],
    ['event.add', { unitId: 'u1', kind: 'high_pressure_trip', at, note: 'Twice', cause: 'air' },
      ['What: High-pressure trip', 'Behind it: Air shut in or too hot', 'When: 15:05', 'Note: Twice']],
    ['event.add', { unitId: 'u1', kind: 'note', at, note: 'Moved', cause: null }, ['What: Something else worth keeping', 'When: 15:05', 'Note: Moved']],
    ['entry.strike', { what: 'photo', entryId: 'e0', why: 'Blurred' }, ['Taken back: a picture', 'Entry: Fan belt', 'Why: Blurred']],
    ['sealed.step', SEALED, ['Step: Open the circuit', 'How: Cut at the drier']],
    ['sealed.step', { ...SEALED, step: 'braze', work: null, skippedWhy: 'No joint opened', certificateId: null, overruledBy: 'R. Boss', overruledWhy: 'Course next week', note: 'Slow' },
      ['Step: Braze with nitrogen flowing', 'Left out, because: No joint opened', 'No certificate; answered for by: R. Boss', 'Why: Course next week', 'Note: Slow']],
  ] as const)('%s %j', (kind, payload, expected) => expect(told(kind, payload)).toEqual(expected)); // prettier-ignore

  it('a reading in either person’s units, where it was not sent as typed', () => {
    const reading = { unitId: 'u1', phase: 'after', values: { headPaGauge: 1_200_000, boxK: 277.15, ampsA: 4.2, steadyMinutes: 12 }, entered: {}, gaugeGrade: null, gaugeSpanPa: 3_500_000, questioned: [], replaces: null }; // prettier-ignore
    expect(lines('reading.add', reading, 'C')).toEqual({
      lines: [['When', 'after cleaning'], ['Head pressure', '12 bar'], ['Box', '4 °C'], ['Compressor current', '4.2 A'], ['Running steadily for', '12 min'], ['Gauge span', '35 bar']],
      whole: true,
    }); // prettier-ignore
    expect(lines('reading.add', reading).lines).toContainEqual(['Head pressure', '174 psig']);
    // Typed in bar by one, read in psig by another: as it was typed.
    const typed = { ...reading, entered: { headPaGauge: { text: '12.0', unit: 'bar' }, boxK: { text: '-4', unit: '°C' } } };
    expect(told('reading.add', typed)).toEqual(expect.arrayContaining(['Head pressure: 12.0 bar', 'Box: −4 °C']));
  });

  it('a unit by what is on its form, and the one in whose place it stands', () => {
    const unit = { unitId: 'u7', taskIds: { coil_cleaning: 't7' }, replacesId: 'u1', name: 'Bar fridge', kind: 'undercounter', make: '', refrigerant: 'R290', chargeKg: 0.15, roofWork: false, serial: null }; // prettier-ignore
    expect(told('unit.add', unit)).toEqual(
      expect.arrayContaining(['In place of: Fry line', 'Name: Bar fridge', 'Refrigerant: R-290', 'Charge: 5.29 oz']),
    );
    expect(lines('unit.add', unit).whole).toBe(true);
    expect(lines('unit.add', { ...unit, replacesId: null }).lines.map(([label]) => label)).not.toContain('In place of');
    expect(lines('unit.add', unit, 'C').lines).toContainEqual(['Charge', '150 g']);
  });

  it('several questions about one quantity are told as one line', () => {
    const questioned = [
      { field: 'boxK', question: 'So warm?', answer: 'Door open.' },
      { field: 'boxK', question: 'Still?', answer: 'Yes.' },
      { field: 'humidity', question: 'What?', answer: 'That.' },
    ];
    expect(told('reading.add', { unitId: 'u1', questioned })).toEqual([
      'Asked about box: So warm? Door open. · Still? Yes.',
      'Asked about humidity: What? That.',
    ]);
  });
});

describe('an entry in one sentence', () => {
  it.each([
    ['sealed.step', SEALED, 'Fry line: Open the circuit, how Cut at the drier'],
    ['sealed.step', { ...SEALED, work: null, skippedWhy: 'No joint', overruledBy: 'R. Boss', overruledWhy: 'Next week', note: 'Slow' },
      'Fry line: Open the circuit, left out because: No joint, no certificate, answered for by R. Boss. Next week. Slow'],
    ['part.use', { unitId: 'u1', what: 'Belt', quantity: 2, partId: 'p1', place: 'shop' }, 'Fry line: Belt, × 2, from the shop'],
    ['part.use', { unitId: null, what: 'Belt', quantity: 2, partId: null, place: null }, 'Belt, × 2'],
    ['unit.add', { unitId: 'u1', name: 'Bar fridge', kind: 'reach_in', replacesId: 'u1' }, 'in place of Fry line, Bar fridge, Reach-in'],
    ['photo.attach', { unitId: 'u1', aspect: 'coil', phase: 'after', bytes: 9999, takenAt: at }, 'Fry line: condenser coil, after cleaning'],
    ['signature.set', { nobodyThere: false, signedBy: 'Ines', png: 'iVBORw0KGgoAAAA=' }, 'signed by Ines'],
    ['visit.close', { leftAt: at, taskIds: ['t1'] }, 'left 15:05'],
    ['entry.strike', { what: 'part', entryId: 'e0', why: 'Wrong unit' }, 'a part. Wrong unit'],
    ['job.outcome', { jobId: 'j1', outcome: 'done', note: '' }, 'New gasket, done'],
    ['task.take', { unitId: 'u1', taskId: 't1' }, 'Fry line: Coil cleaning'],
    ['reading.add', { unitId: 'u1', phase: 'before', values: { ampsA: 4 }, gaugeGrade: 'A', gaugeSpanPa: 3e6, questioned: [{ field: 'ampsA', question: 'Sure?', answer: 'Yes.' }] },
      'Fry line: before cleaning, compressor current 4 A. Sure? Yes.'],
    // Only words of its own: they stand alone after the unit.
    ['finding.set', { unitId: 'u1', note: 'Loud' }, 'Fry line: Loud'],
    ['follow_up.add', { note: 'Loud' }, 'Loud'],
  ] as const)('%s %j', (kind, payload, expected) => expect(sentence(kind, payload)).toBe(expected)); // prettier-ignore

  it('is nothing where there is nothing to say, or nobody knows the kind', () => {
    for (const odd of [null, undefined, 'words', 7, ['x'], {}]) expect(sentence('part.use', odd)).toBe('');
    expect(sentence('dance.add', { what: 'x' })).toBe('');
    expect(sentence('toString', { what: 'x' })).toBe('');
    expect(sentence('task.done', { taskId: 7 })).toBe('');
  });
});

/** A content for each field of each kind that has the shape it should have. */
const WHOLE: Record<string, Record<string, unknown>> = {
  'visit.start': { arrivedAt: at },
  'finding.set': { unitId: 'u1', aspect: 'coil', phase: 'found', grade: 'matted', notLookedWhy: 'x', note: 'x' },
  'reading.add': { unitId: 'u1', phase: 'before', values: { boxK: 280 }, entered: {}, gaugeGrade: '1A', gaugeSpanPa: 3e6, questioned: [] },
  'unit.outcome': { unitId: 'u1', outcome: 'seen', reason: 'x' },
  'task.take': { unitId: 'u1', taskId: 't1' },
  'task.done': { taskId: 't1' },
  'task.not_done': { taskId: 't1', reason: 'x' },
  'photo.attach': { unitId: 'u1', aspect: 'coil', phase: 'before', bytes: 10, takenAt: at },
  'signature.set': { nobodyThere: true, signedBy: 'x', png: 'iVBORw0KGgo=' },
  'part.use': { unitId: 'u1', what: 'x', quantity: 1, partId: 'p1', place: 'van' },
  'follow_up.add': { unitId: 'u1', what: 'x', urgency: 'now', note: 'x' },
  'job.outcome': { jobId: 'j1', outcome: 'done', note: 'x' },
  'food_warning.add': { unitId: 'u1', boxK: 280, toldTo: 'x', toldAt: at, note: 'x' },
  'sealed.step': { unitId: 'u1', step: 'recover', work: RECOVER, skippedWhy: 'x', certificateId: 'x', overruledBy: 'x', overruledWhy: 'x', note: 'x' }, // prettier-ignore
  'event.add': { unitId: 'u1', kind: 'note', cause: 'fan', at, note: 'x' },
  'entry.strike': { what: 'part', entryId: 'e0', why: 'x' },
  'visit.close': { leftAt: at, taskIds: [] },
  'unit.add': { replacesId: 'u1', name: 'x', kind: 'reach_in', chargeKg: 0.1 },
};

describe('content of a shape that nobody reads', () => {
  const fields = Object.entries(WHOLE).flatMap(([kind, payload]) => Object.keys(payload).map((key) => [kind, key] as const));

  it('stands in this table for every kind, each of them told whole', () => {
    expect(Object.keys(WHOLE).sort()).toEqual(Object.keys(ENTRY_LABEL).sort());
    for (const [kind, payload] of Object.entries(WHOLE)) expect(lines(kind, payload).whole, kind).toBe(true);
  });

  it.each(fields)('%s.%s is told not to be whole, the rest is told, and nothing breaks', (kind, key) => {
    // A number, a list, a truth and a record where each is the wrong thing.
    const right = WHOLE[kind]?.[key];
    const wrong = [7, ['x'], true, {}, 'x'].filter((w) => typeof w !== typeof right || Array.isArray(w) !== Array.isArray(right));
    expect(wrong.length).toBeGreaterThan(2);
    for (const w of wrong) {
      const payload = { ...WHOLE[kind], [key]: w };
      const { lines: all, whole } = lines(kind, payload);
      expect(whole, JSON.stringify(w)).toBe(false);
      const rest = Object.fromEntries(Object.entries(payload).filter(([k]) => k !== key));
      // A grade's word hangs on its aspect: but for that one, what is wrong in one field changes nothing in another.
      if (key !== 'aspect') expect(all).toEqual(lines(kind, rest).lines);
      expect(typeof sentence(kind, payload)).toBe('string');
    }
  });

  it('is told of a reading too where a quantity was typed without its unit, or is none', () => {
    const reading = (values: unknown, entered: unknown) => lines('reading.add', { values, entered });
    expect(reading({ boxK: 280 }, { boxK: { text: '44', unit: 7 } })).toEqual({ lines: [['Box', '44.3 °F']], whole: true });
    expect(reading({ boxK: 280 }, { boxK: { text: 44, unit: '°F' } }).lines).toEqual([['Box', '44.3 °F']]);
    expect(reading({ boxK: 280 }, { boxK: 'x' }).lines).toEqual([['Box', '44.3 °F']]);
    expect(reading({ boxK: 280 }, null)).toEqual({ lines: [['Box', '44.3 °F']], whole: true });
    expect(reading({ boxK: 'x' }, {})).toEqual({ lines: [], whole: false });
    for (const odd of [[], 'x', 7]) expect(reading(odd, {})).toEqual({ lines: [], whole: false });
  });

  it('is told of questions where part of one is missing; the others are told', () => {
    const good = { field: 'boxK', question: 'Sure?', answer: 'Yes.' };
    for (const bad of [{ ...good, field: 7 }, { ...good, question: 7 }, { ...good, answer: 7 }, 'x', null, [good]])
      expect(lines('reading.add', { questioned: [bad, good] })).toEqual({ lines: [['Asked about box', 'Sure? Yes.']], whole: false });
    expect(lines('reading.add', { questioned: good })).toEqual({ lines: [], whole: false });
  });

  it('is never told as yes where something else came: what came, and what was asked', () => {
    const told = (provenDead: unknown) => lines('sealed.step', { unitId: 'u1', step: 'isolate', work: { step: 'isolate', provenDead, flammable: null } }).lines; // prettier-ignore
    const proven = (provenDead: unknown) => told(provenDead).find(([label]) => label === 'Proven dead')?.[1];
    expect([proven(true), proven(false)]).toEqual(['yes', 'no']);
    expect(proven('no')).toBe('“no” (yes or no was asked)');
    expect(proven(1)).toBe('“1” (yes or no was asked)');
    for (const nothing of [null, undefined, '']) expect(proven(nothing)).toBe('not answered (yes or no was asked)');
    const braze = { step: 'braze', joints: [], nitrogen: 'flowing', wetRag: false, fireWatchMinutes: 30 };
    expect(lines('sealed.step', { unitId: 'u1', step: 'braze', work: braze }).lines).toContainEqual(['Nitrogen flowing', '“flowing” (yes or no was asked)']); // prettier-ignore
    // What has no words is not put into any.
    expect(lines('sealed.step', { unitId: 'u1', step: 'braze', work: { ...braze, nitrogen: { on: true } } }).whole).toBe(false);
  });
  it('is told of work on a sealed circuit of a step that does not exist, or without what it needs', () => {
    for (const work of [{ step: 'dance' }, { how: 'x' }, 'open', ['open'], { ...RECOVER, startKg: 'x' }, { step: 'braze' }, { step: 'open' }, { step: 'open', how: {} }])
      expect(lines('sealed.step', { unitId: 'u1', step: 'open', work, note: 'x' })).toEqual({
        lines: [['Step', 'Open the circuit'], ['Note', 'x']],
        whole: false,
      }); // prettier-ignore
    expect(lines('sealed.step', { step: 'dance' })).toEqual({ lines: [], whole: false });
  });

  it('is a word of no list told as it came, also one that every object has', () => {
    for (const word of ['sparkling', 'toString']) {
      expect(told('follow_up.add', { urgency: word })).toEqual([`When: ${word}`]);
      expect(told('finding.set', { aspect: word, grade: word })).toEqual([`What: ${word}`, `Grade: ${word.toLowerCase()}`]);
      expect(lines('reading.add', { values: { [word]: 4 } }).whole).toBe(false);
      expect(lines('part.use', { [word]: 4 }).whole).toBe(false);
    }
  });

  it('is no drawing unless it begins as a PNG does (RFC 2083 §12.11) and is base64 to the end', () => {
    expect(isPng('iVBORw0KGgoAAAANSUhEUg+/==')).toBe(true);
    for (const odd of ['', 'AA==', ' iVBORw0KGgo', 'iVBORw0KGg', 'data:image/png;base64,iVBORw0KGgoA', 'iVBORw0KGgo"><script>', 'iVBORw0KGgo\nAA', 7, null, ['iVBORw0KGgo']]) expect(isPng(odd), String(odd)).toBe(false); // prettier-ignore
  });
});

describe('the lists that entries choose from', () => {
  const lists: [string, Record<string, string>][] = [
    ['entries', ENTRY_LABEL],
    ['events', UNIT_EVENT_LABEL],
    ['urgencies', URGENCY_LABEL],
    ['outcomes of a job', JOB_OUTCOME_LABEL],
    ['causes of a trip', TRIP_CAUSE_LABEL],
  ];
  it.each(lists)('%s have a word each, none twice, as a screen begins it', (_, labels) => {
    const words = Object.values(labels);
    expect(new Set(words).size).toBe(words.length);
    for (const word of words) expect(word).toMatch(/^[A-Z][a-z]/);
  });

  it('each member is told by its own word', () => {
    for (const kind of ENTERED_EVENTS) expect(told('event.add', { kind })).toEqual([`What: ${UNIT_EVENT_LABEL[kind]}`]);
    for (const urgency of URGENCIES) expect(told('follow_up.add', { urgency })).toEqual([`When: ${URGENCY_LABEL[urgency]}`]);
    for (const outcome of JOB_OUTCOMES) expect(told('job.outcome', { outcome })).toEqual([`What became of it: ${JOB_OUTCOME_LABEL[outcome]}`]); // prettier-ignore
    for (const [cause, word] of Object.entries(TRIP_CAUSE_LABEL)) expect(told('event.add', { cause })).toEqual([`Behind it: ${word}`]);
    for (const [place, word] of Object.entries(PART_PLACE_LABEL)) expect(told('part.use', { place })).toEqual([`Taken from: ${word}`]);
    expect(URGENCIES).toEqual(Object.keys(URGENCY_LABEL));
    expect(JOB_OUTCOMES).toEqual(Object.keys(JOB_OUTCOME_LABEL));
    // What the office alone puts down is not offered on a tablet.
    expect(Object.keys(UNIT_EVENT_LABEL).filter((k) => !ENTERED_EVENTS.some((e) => e === k))).toEqual(['coil_cleaned_before']);
  });

  it('asks why where nothing was done or a part is wanted, and nowhere else', () => {
    expect(JOB_OUTCOMES.filter((o) => OUTCOME_ASKS_WHY[o])).toEqual(['needs_part', 'not_done']);
  });

  it('ways to leave a unit say what the office has to do: at once where it stands still, within days where it runs', () => {
    expect(LEFT_HOW.map((l) => [l.urgency, l.event])).toEqual([['now', null], ['now', 'high_pressure_trip'], ['soon', null]]); // prettier-ignore
    for (const { label, what, urgency } of LEFT_HOW) expect(/off/i.test(label) && /off/.test(what), label).toBe(urgency === 'now');
    expect(new Set(LEFT_HOW.flatMap((l) => [l.label, l.what])).size).toBe(2 * LEFT_HOW.length);
  });
});

describe('the quantities of a reading', () => {
  it('have a name each, none twice, and say where to measure what can be measured wrongly', () => {
    const labels = READING_FIELDS.map((f) => FIELD_INFO[f].label);
    expect(new Set(labels).size).toBe(READING_FIELDS.length);
    for (const label of labels) expect(label).toMatch(/^[A-Z][a-z]/);
    expect(READING_FIELDS.filter((f) => FIELD_INFO[f].hint === '')).toEqual(['ampsA', 'roomAirK', 'offCycleAirK']);
    for (const f of READING_FIELDS) if (FIELD_INFO[f].hint) expect(FIELD_INFO[f].hint, f).toMatch(/^[A-Z0-9].*\.$/);
  });

  it('carry in their name what they are, and reach from the least to the most that can be filed', () => {
    const dimension = (f: string) => (f.endsWith('PaGauge') ? 'pressure' : f.endsWith('K') ? 'temperature' : f.endsWith('A') ? 'amps' : 'minutes'); // prettier-ignore
    for (const f of READING_FIELDS) {
      expect(FIELD_INFO[f].dimension, f).toBe(dimension(f));
      const [lowest, highest] = readingSpan(f);
      expect(lowest).toBeLessThan(highest);
      // A vacuum is no lower than an atmosphere; nothing is colder than 150 K in a kitchen.
      expect(lowest).toBeGreaterThanOrEqual(dimension(f) === 'pressure' ? -110_000 : dimension(f) === 'temperature' ? 150 : 0);
    }
  });
});

it('fields of a unit stand in its entry under the names of its form', () => {
  for (const key of UNIT_KEYS) {
    const field = unitField(key);
    const value = { measured: 0.2, tick: true, maybe: true }[field.type as string] ?? 'words';
    const { lines: all, whole } = lines('unit.add', { [key]: value });
    expect(whole, key).toBe(true);
    expect(all.map(([label]) => label), key).toEqual([field.label]); // prettier-ignore
    // What is known by its look stands alone in a sentence; anything else has its name before it.
    const alone = ['name', 'kind', 'placement', 'refrigerant', 'make', 'model', 'serial', 'notes'].includes(key);
    expect(sentence('unit.add', { [key]: value }).startsWith(field.label.charAt(0).toLowerCase() + field.label.slice(1)), key).toBe(!alone);
  }
});
