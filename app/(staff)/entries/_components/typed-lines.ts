import { UNIT_KEYS, unitField } from '@/lib/core/equipment/unit-fields';
import { fieldWords } from '@/lib/core/equipment/unit-words';
import { ASPECT_LABEL, gradeLabel, type Aspect } from '@/lib/core/findings/grades';
import { UNIT_EVENT_LABEL, URGENCY_LABEL, type OperationKind } from '@/lib/core/tablet';
import { nominal } from '@/lib/core/measures/entry-units';
import { doubts, quantities } from './reading-said';
import { amount, isRecord, measured, moment, named, nothing, oneOf, text, unit, type Line, type Reader, type Said, type Say } from './say';

const aspect = oneOf(ASPECT_LABEL);
const work = oneOf({ before: 'before cleaning', after: 'after cleaning' });
const grade: Say = (v, _, p) => (typeof v !== 'string' ? null : gradeLabel(p.aspect as Aspect, v).toLowerCase());
const span: Say = (v, { units }) => (typeof v === 'number' ? nominal('pressure', units.pressure, v) : null);
const size: Say = (v) => (typeof v === 'number' ? `${Math.ceil(v / 1024)} kB` : null);
const nobody: Say = (v) => (typeof v === 'boolean' ? (v ? 'nobody' : '') : null);
const howMany: Say = (v) => (Array.isArray(v) ? String(v.length) : null);
const drawn: Say = (v) => (isPng(v) ? 'drawn' : null);

/** A PNG in base64 by its first bytes: RFC 2083 §12.11. */
export const isPng = (v: unknown): v is string => typeof v === 'string' && v.startsWith('iVBORw0KGgo') && /^[a-z0-9+/=]+$/i.test(v);

type Fields = Record<string, readonly [label: string, say: Say]>;
const UNIT = { unitId: ['Unit', unit] } as const satisfies Fields;
const TASK = { taskId: ['Task', named] } as const satisfies Fields;
const NOTE = { note: ['Note', text] } as const satisfies Fields;

const UNIT_FIELD_WORDS: Fields = Object.fromEntries(
  UNIT_KEYS.map((key) => [key, [unitField(key).label, (v, { units }) => fieldWords(unitField(key), v, units)] as const]),
);

const FIELDS: Record<OperationKind, Fields> = {
  'visit.start': { arrivedAt: ['Arrived', moment] },
  'finding.set': {
    ...UNIT,
    aspect: ['What', aspect],
    phase: ['When', oneOf({ found: 'on arrival', left: 'as left' })],
    grade: ['Grade', grade],
    notLookedWhy: ['Not looked at, because', text],
    ...NOTE,
    replaces: ['', nothing],
  },
  'reading.add': {
    ...UNIT,
    phase: ['When', work],
    values: ['', quantities],
    entered: ['', (v) => (isRecord(v) ? '' : null)],
    gaugeGrade: ['Gauge grade', text],
    gaugeSpanPa: ['Gauge span', span],
    questioned: ['', doubts],
    replaces: ['', nothing],
  },
  'unit.outcome': {
    ...UNIT,
    outcome: ['Reached', oneOf({ seen: 'seen', could_not_reach: 'could not reach', gone: 'gone' })],
    reason: ['Why', text],
  },
  'unit.add': { unitId: ['', nothing], ...UNIT_FIELD_WORDS },
  'task.done': TASK,
  'task.not_done': { ...TASK, reason: ['Why', text] },
  'photo.attach': {
    ...UNIT,
    aspect: ['Of', aspect],
    phase: ['When', work],
    takenAt: ['Taken', moment],
    bytes: ['Size', size],
    sha256: ['', nothing],
  },
  'signature.set': { nobodyThere: ['Who was there', nobody], signedBy: ['Signed by', text], png: ['Signature', drawn] },
  'part.use': { ...UNIT, what: ['Part', text], quantity: ['How many', amount] },
  'follow_up.add': { ...UNIT, what: ['What', text], urgency: ['When', oneOf(URGENCY_LABEL)], ...NOTE },
  'food_warning.add': { ...UNIT, boxK: ['Box', measured('boxK')], toldTo: ['Told to', text], toldAt: ['Told', moment], ...NOTE },
  'event.add': { ...UNIT, kind: ['What', oneOf(UNIT_EVENT_LABEL)], at: ['When', moment], ...NOTE },
  'entry.strike': {
    what: ['Taken back', oneOf({ part: 'a part', follow_up: 'a follow-up', event: 'an event', photo: 'a picture' })],
    entryId: ['Entry', named],
    why: ['Why', text],
  },
  'visit.close': { leftAt: ['Left', moment], taskIds: ['Tasks on the tablet', howMany] },
};

/** What a person typed in an entry, in words, whatever shape it came in. */
export function typedLines(kind: string, payload: unknown, reader: Reader): Said {
  if (payload === null || payload === undefined) return { lines: [], whole: true };
  if (!isRecord(payload) || !Object.hasOwn(FIELDS, kind)) return { lines: [], whole: false };
  const fields = FIELDS[kind as OperationKind];
  const lines: Line[] = [];
  let whole = Object.keys(payload).every((key) => Object.hasOwn(fields, key));
  for (const [key, [label, say]] of Object.entries(fields)) {
    const value = payload[key];
    if (value === null || value === undefined) continue;
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
