import { TRIP_CAUSES } from '../../core/findings/trip-causes';
import { z } from 'zod';
import { longText, text } from '../values/text';
import { GAUGE_GRADES } from '../../core/condenser/types';
import { ASPECTS, GRADE_NAMES, gradeIndex } from '../../core/findings/grades';
import { MOST_OF_A_PART } from '../../core/entries/bounds';
import { TASK_KEYS } from '../../core/tasks/kinds';
import { readingSpan } from '../../core/entries/reading-fields';
import {
  FINDING_PHASES,
  JOB_OUTCOMES,
  OUTCOME_ASKS_WHY,
  READING_FIELDS,
  STRUCK,
  ENTERED_EVENTS,
  URGENCIES,
  type EntryKind,
  type Payloads,
  type ReadingField,
} from '../../core/entries/entries';
import { PART_PLACES } from '../../core/parts/places';
import { SEALED_STEPS } from '../../core/sealed/steps';
import { SealedWorkSchema } from './sealed';
import { UNIT_SENT } from '../equipment/unit-field';

const Id = z.uuid();
const EARLIEST = Date.UTC(2000, 0, 1);
const LATEST = Date.UTC(2200, 0, 1);
const AnyInstant = z.iso.datetime({ offset: true });
/** A time at which an entry's work can have been done. */
const Instant = AnyInstant.refine(
  (t) => Date.parse(t) >= EARLIEST && Date.parse(t) <= LATEST,
  'That is no time at which it can have been.',
);
/** By the tablet's clock: one that is wholly wrong is no reason to refuse the entry, let alone its batch; the handler goes by the entry's own time then. */
const ClockTime = AnyInstant.transform((t) => new Date(Math.min(Math.max(Date.parse(t), EARLIEST), LATEST)).toISOString());
const FreeText = longText().max(2000);
const Reason = longText().min(1, 'Say why.').max(500);
const WorkPhase = z.enum(['before', 'after']);

const bounded = (field: ReadingField) => z.number().min(readingSpan(field)[0]).max(readingSpan(field)[1]);
const Values = z.strictObject(
  Object.fromEntries(READING_FIELDS.map((f) => [f, bounded(f).optional()])) as Record<ReadingField, z.ZodOptional<z.ZodNumber>>,
);
const FieldName = z.enum(READING_FIELDS);

const Finding = z
  .strictObject({
    unitId: Id,
    aspect: z.enum(ASPECTS),
    phase: z.enum(FINDING_PHASES),
    grade: z.enum(GRADE_NAMES).nullable(),
    notLookedWhy: longText().max(500),
    note: FreeText,
    replaces: Id.nullable(),
  })
  .refine((f) => (f.grade !== null) !== (f.notLookedWhy !== ''), 'A finding has a grade, or says why it was not looked at.')
  .refine((f) => f.grade === null || gradeIndex(f.aspect, f.grade) >= 0, 'That is not one of the grades.');

/** A drawing of a name, not a photograph. */
const SIGNATURE_BASE64 = 300_000;
const Signature = z
  .strictObject({ nobodyThere: z.boolean(), signedBy: text().max(200), png: z.base64().max(SIGNATURE_BASE64).nullable() })
  .refine((s) => s.nobodyThere !== (s.png !== null), 'Either a signature or nobody there.');

export const PAYLOADS = {
  'visit.start': z.strictObject({ arrivedAt: ClockTime }),
  'finding.set': Finding,
  'reading.add': z.strictObject({
    unitId: Id,
    phase: WorkPhase,
    values: Values,
    gaugeGrade: z.enum(GAUGE_GRADES).nullable(),
    gaugeSpanPa: z.number().positive().max(1e8).nullable(),
    entered: z.partialRecord(FieldName, z.strictObject({ text: text().max(20), unit: text().max(10) })),
    questioned: z.array(z.strictObject({ field: FieldName, question: FreeText, answer: FreeText })).max(40),
    replaces: Id.nullable(),
  }),
  'unit.outcome': z
    .strictObject({ unitId: Id, outcome: z.enum(['seen', 'could_not_reach', 'gone']), reason: longText().max(500) })
    .refine((o) => o.outcome === 'seen' || o.reason !== '', 'Say why.'),
  'unit.add': z.strictObject({
    unitId: Id,
    taskIds: z.partialRecord(z.enum(TASK_KEYS), Id).optional(),
    replacesId: Id.nullable().optional(),
    ...UNIT_SENT,
  }),
  'task.take': z.strictObject({ taskId: Id, unitId: Id }),
  'task.done': z.strictObject({ taskId: Id }),
  'task.not_done': z.strictObject({ taskId: Id, reason: Reason }),
  'photo.attach': z.strictObject({
    unitId: Id.nullable(),
    aspect: z.enum(ASPECTS).nullable(),
    phase: WorkPhase,
    sha256: z.hex().length(64),
    bytes: z.number().int().positive(),
    takenAt: Instant,
  }),
  'signature.set': Signature,
  'part.use': z.strictObject({
    unitId: Id.nullable(),
    what: text().min(1).max(200),
    quantity: z.number().positive().max(MOST_OF_A_PART),
    partId: Id.nullable().optional(),
    place: z.enum(PART_PLACES).nullable().optional(),
  }),
  'follow_up.add': z.strictObject({ unitId: Id, what: text().min(1).max(300), urgency: z.enum(URGENCIES), note: FreeText }),
  'job.outcome': z
    .strictObject({ jobId: Id, outcome: z.enum(JOB_OUTCOMES), note: longText().max(500) })
    .refine((o) => !OUTCOME_ASKS_WHY[o.outcome] || o.note !== '', 'Say which part, or why not.'),
  'food_warning.add': z.strictObject({
    unitId: Id,
    boxK: bounded('boxK'),
    toldTo: text().min(1).max(200),
    toldAt: Instant,
    note: FreeText,
  }),
  'sealed.step': z
    .strictObject({
      recordId: Id,
      unitId: Id,
      step: z.enum(SEALED_STEPS),
      work: SealedWorkSchema.nullable(),
      skippedWhy: longText().max(500),
      certificateId: Id.nullable(),
      overruledBy: text().max(200),
      overruledWhy: longText().max(500),
      note: FreeText,
    })
    .refine((s) => (s.work !== null) !== (s.skippedWhy !== ''), 'A step was done, or says why it was left out.')
    .refine((s) => s.work === null || s.work.step === s.step, 'What was done belongs to another step.'),
  'event.add': z
    .strictObject({ unitId: Id, kind: z.enum(ENTERED_EVENTS), at: Instant, note: FreeText, cause: z.enum(TRIP_CAUSES).nullable() })
    .refine((e) => e.cause === null || e.kind === 'high_pressure_trip', 'Only a trip has a cause.'),
  'entry.strike': z.strictObject({ what: z.enum(STRUCK), entryId: Id, why: Reason }),
  'visit.close': z.strictObject({ leftAt: ClockTime, taskIds: z.array(Id).max(2000) }),
} as const satisfies { [K in EntryKind]: z.ZodType<Payloads[K]> };

/** Everything about an entry but what it says: a payload that cannot be read must not hold up the rest. */
export const EntryEnvelope = z.object({
  id: Id,
  seq: z.number().int().positive(),
  kind: text().max(40),
  version: z.number().int().positive(),
  visitId: Id,
  madeAt: ClockTime,
  basedOn: ClockTime,
  payload: z.unknown(),
});
export type EntryEnvelope = z.output<typeof EntryEnvelope>;

const MOST_ENTRIES = 200;
/** Tablets from before 2026-11-27 send `operations`. */
const named = (sent: unknown): unknown =>
  isPlainObject(sent) && 'operations' in sent && !('entries' in sent) ? { ...sent, entries: sent.operations } : sent;
const isPlainObject = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null;

const Sent = z.object({
  /** `holder` is whose work it is: usually who is signed in, or someone whose file the office takes in. */
  device: z.object({ id: Id, holder: Id, name: text().max(120), appVersion: text().max(40) }),
  /** The device's own clock as it sent this. */
  sentAt: AnyInstant,
  entries: z.array(EntryEnvelope).max(MOST_ENTRIES),
});
export const SyncRequest = z.preprocess(named, Sent);
export type SyncRequest = z.output<typeof SyncRequest>;
