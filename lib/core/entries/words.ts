import { lower } from '../wording/lower';
import { UNIT_KEYS, unitField, type UnitKey } from '../equipment/unit-fields';
import { fieldWords } from '../equipment/unit-words';
import { ASPECT_LABEL, ASPECTS, gradeLabel } from '../findings/grades';
import { nominal } from '../measures/entry-units';
import { PART_PLACE_LABEL } from '../parts/places';
import { SEALED_STEP_TEXT, SEALED_STEPS, type SealedStep } from '../sealed/steps';
import { workLines } from '../sealed/said';
import type { SealedWork } from '../sealed/work';
import { TRIP_CAUSE_LABEL } from '../findings/trip-causes';
import { JOB_OUTCOME_LABEL, UNIT_EVENT_LABEL, URGENCY_LABEL, type EntryKind } from './entries';
import { isKeyOf, isOneOf } from '../typed/closed-set';
import { doubts, quantities } from './reading-said';
import { amount, isRecord, measured, moment, named, nothing, oneOf, text, unit, type Line, type Reader, type Said, type Say } from './say';

const aspect = oneOf(ASPECT_LABEL);
const work = oneOf({ before: 'before cleaning', after: 'after cleaning' });
const grade: Say = (v, _, p) => (typeof v !== 'string' ? null : (isOneOf(ASPECTS, p.aspect) ? gradeLabel(p.aspect, v) : v).toLowerCase());
const span: Say = (v, { units }) => (typeof v === 'number' ? nominal('pressure', units.pressure, v) : null);
const size: Say = (v) => (typeof v === 'number' ? `${Math.ceil(v / 1024)} kB` : null);
const nobody: Say = (v) => (typeof v === 'boolean' ? (v ? 'nobody' : '') : null);
const howMany: Say = (v) => (Array.isArray(v) ? String(v.length) : null);
const drawn: Say = (v) => (isPng(v) ? 'drawn' : null);

/** A PNG in base64 by its first bytes: RFC 2083 §12.11. */
export const isPng = (v: unknown): v is string => typeof v === 'string' && v.startsWith('iVBORw0KGgo') && /^[a-z0-9+/=]+$/i.test(v);

const isSealedStep = (v: unknown): v is SealedStep => SEALED_STEPS.some((s) => s === v);
/** One that was refused may be of any shape: it is then told as it came. */
const isSealedWork = (v: unknown): v is SealedWork => isRecord(v) && isSealedStep(v.step);
const sealedWork: Say = (v, { units, name }) => {
  try {
    const lines = isSealedWork(v) ? workLines(v, units, name) : [];
    // A figure that is none in the entry comes out as no number.
    return lines.length > 0 && lines.every(([, said]) => !/\b(NaN|undefined)\b|\[object /.test(said)) ? { lines, whole: true } : null;
  } catch {
    return null;
  }
};

/** How a value stands in one sentence: alone, after its label, as a sentence of its own, in words of its own, or not at all. */
type Inline = 'alone' | 'labelled' | 'sentence' | 'silent' | ((value: string) => string);
type Field = readonly [label: string, say: Say, inline?: Inline];
type Fields = Record<string, Field>;

const UNIT = { unitId: ['Unit', unit, 'silent'] } as const satisfies Fields;
const TASK = { taskId: ['Task', named] } as const satisfies Fields;
const NOTE = { note: ['Note', text, 'sentence'] } as const satisfies Fields;
const WHY = { reason: ['Why', text, 'sentence'] } as const satisfies Fields;

/** What is known by its look stands alone in a sentence: a name, a kind, a refrigerant. */
const ALONE = new Set<UnitKey>(['name', 'kind', 'placement', 'refrigerant', 'make', 'model', 'serial', 'notes']);
const UNIT_FIELD_WORDS: Fields = Object.fromEntries(
  UNIT_KEYS.map((key): [string, Field] => {
    const field = unitField(key);
    return [key, [field.label, (v, { units }) => fieldWords(field, v, units), ALONE.has(key) ? 'alone' : 'labelled']];
  }),
);

const FIELDS: Record<EntryKind, Fields> = {
  'visit.start': { arrivedAt: ['Arrived', moment, 'labelled'] },
  'finding.set': {
    ...UNIT,
    aspect: ['What', aspect, lower],
    phase: ['When', oneOf({ found: 'on arrival', left: 'as left' })],
    grade: ['Grade', grade],
    notLookedWhy: ['Not looked at, because', text, (why) => `not looked at because: ${why}`],
    ...NOTE,
    replaces: ['', nothing],
  },
  'reading.add': {
    ...UNIT,
    phase: ['When', work],
    values: ['', quantities],
    entered: ['', (v) => (isRecord(v) ? '' : null)],
    gaugeGrade: ['Gauge grade', text, 'silent'],
    gaugeSpanPa: ['Gauge span', span, 'silent'],
    questioned: ['', doubts],
    replaces: ['', nothing],
  },
  'unit.outcome': {
    ...UNIT,
    outcome: ['Reached', oneOf({ seen: 'seen', could_not_reach: 'could not reach', gone: 'gone' })],
    ...WHY,
  },
  'unit.add': { unitId: ['', nothing], taskIds: ['', nothing], replacesId: ['In place of', named, 'labelled'], ...UNIT_FIELD_WORDS },
  'task.take': { ...UNIT, ...TASK },
  'task.done': TASK,
  'task.not_done': { ...TASK, ...WHY },
  'photo.attach': {
    ...UNIT,
    aspect: ['Of', (v, reader, p) => (v === null ? 'whole unit' : aspect(v, reader, p)), lower],
    phase: ['When', work],
    takenAt: ['Taken', moment, 'silent'],
    bytes: ['Size', size, 'silent'],
    sha256: ['', nothing],
  },
  'signature.set': {
    nobodyThere: ['Who was there', nobody, (who) => `${who} there`],
    signedBy: ['Signed by', text, 'labelled'],
    png: ['Signature', drawn, 'silent'],
  },
  'part.use': {
    ...UNIT,
    what: ['Part', text],
    quantity: ['How many', amount, (n) => `× ${n}`],
    partId: ['', (v) => (typeof v === 'string' ? '' : null)],
    place: ['Taken from', oneOf(PART_PLACE_LABEL), (place) => `from ${place}`],
  },
  'follow_up.add': { ...UNIT, what: ['What', text], urgency: ['When', oneOf(URGENCY_LABEL), lower], ...NOTE },
  'job.outcome': { jobId: ['Job', named], outcome: ['What became of it', oneOf(JOB_OUTCOME_LABEL), lower], ...NOTE },
  'food_warning.add': {
    ...UNIT,
    boxK: ['Box', measured('boxK')],
    toldTo: ['Told to', text, 'labelled'],
    toldAt: ['Told', moment, (at) => `at ${at}`],
    ...NOTE,
  },
  'sealed.step': {
    ...UNIT,
    recordId: ['', nothing],
    step: ['Step', (v) => (isSealedStep(v) ? SEALED_STEP_TEXT[v].title : null)],
    work: ['', sealedWork],
    skippedWhy: ['Left out, because', text, (why) => `left out because: ${why}`],
    certificateId: ['Certificate', (v) => (typeof v === 'string' ? '' : null)],
    overruledBy: ['No certificate; answered for by', text, (who) => `no certificate, answered for by ${who}`],
    overruledWhy: ['Why', text, 'sentence'],
    ...NOTE,
  },
  'event.add': {
    ...UNIT,
    kind: ['What', oneOf(UNIT_EVENT_LABEL), lower],
    cause: ['Behind it', oneOf(TRIP_CAUSE_LABEL), (c) => `behind it: ${lower(c)}`],
    at: ['When', moment],
    ...NOTE,
  },
  'entry.strike': {
    what: ['Taken back', oneOf({ part: 'a part', follow_up: 'a follow-up', event: 'an event', photo: 'a picture' })],
    entryId: ['Entry', named, 'silent'],
    why: ['Why', text, 'sentence'],
  },
  'visit.close': { leftAt: ['Left', moment, 'labelled'], taskIds: ['Tasks on the tablet', howMany, 'silent'] },
};

/** Fields whose emptiness says something. */
const TOLD_NULL = new Set(['photo.attach.aspect']);

/** What a person typed in an entry, in words, whatever shape it came in. */
export function typedLines(kind: string, payload: unknown, reader: Reader): Said {
  if (payload === null || payload === undefined) return { lines: [], whole: true };
  if (!isRecord(payload) || !isKeyOf(FIELDS, kind)) return { lines: [], whole: false };
  const fields = FIELDS[kind];
  const lines: Line[] = [];
  let whole = Object.keys(payload).every((key) => Object.hasOwn(fields, key));
  for (const [key, [label, say]] of Object.entries(fields)) {
    const value = payload[key];
    if (saysNothing(kind, key, value)) continue;
    const said = say(value, reader, payload);
    if (said === null) whole = false;
    else if (typeof said !== 'string') {
      lines.push(...said.lines);
      whole &&= said.whole;
    } else if (said !== '') lines.push([label, said]);
  }
  return { lines: merged(lines), whole };
}

/** Lines of one label are told as one. */
function merged(lines: readonly Line[]): Line[] {
  const by = new Map<string, string>();
  for (const [label, value] of lines) by.set(label, by.has(label) ? `${by.get(label)} · ${value}` : value);
  return [...by];
}

/** What an entry says in one sentence, enough to write it again: the same table as `typedLines`. '' where there are no words for it. */
export function entrySentence(kind: string, payload: unknown, reader: Reader): string {
  if (!isRecord(payload) || !isKeyOf(FIELDS, kind)) return '';
  const parts: string[] = [];
  const after: string[] = [];
  for (const [key, [label, say, inline = 'alone']] of Object.entries<Field>(FIELDS[kind])) {
    const value = payload[key];
    if (inline === 'silent' || saysNothing(kind, key, value)) continue;
    const said = say(value, reader, payload);
    if (said === null || said === '') continue;
    if (typeof said !== 'string') (key === 'questioned' ? after : parts).push(...said.lines.map((l) => lineWords(key, l)));
    else if (inline === 'sentence') after.push(said);
    else parts.push(inlineWords(said, label, inline));
  }
  if (parts.length + after.length === 0) return '';
  return `${headWords(kind, payload, reader)}${[parts.join(', '), ...after].filter(Boolean).join('. ')}`;
}

const saysNothing = (kind: string, key: string, value: unknown): boolean =>
  value === undefined || (value === null && !TOLD_NULL.has(`${kind}.${key}`));

function inlineWords(said: string, label: string, inline: Inline): string {
  if (typeof inline === 'function') return inline(said);
  return inline === 'labelled' ? `${lower(label)} ${said}` : said;
}

/** The unit it is about, before what is said of it. */
function headWords(kind: string, { unitId }: Record<string, unknown>, reader: Reader): string {
  return typeof unitId === 'string' && kind !== 'unit.add' ? `${reader.name(unitId) ?? 'a unit'}: ` : '';
}

/** A quantity after its name; of a question only what was asked and answered. */
const lineWords = (key: string, [label, value]: Line): string => (key === 'questioned' ? value : `${lower(label)} ${value}`);
