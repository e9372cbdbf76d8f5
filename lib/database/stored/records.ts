import { z } from 'zod';
import { READING_FIELDS, type Entered, type Questioned } from '../../core/entries/entries';
import { renamed, stored, storedList } from './stored';

/** Some of what was written beside an act; each kind of act has its own keys, and none of them is ever changed. */
const anything = z.record(z.string(), z.unknown());

const archived = z.array(z.string()).optional();
/** What an act changed, and what went off file with it. */
export type AuditDetail = {
  changed?: Record<string, unknown>;
  kitchenIds?: string[];
  unitIds?: string[];
  taskIds?: string[];
  [more: string]: unknown;
};
export const STORED_AUDIT_DETAIL = stored<AuditDetail>(
  'detail of an act',
  1,
  z.looseObject({ changed: anything.optional(), kitchenIds: archived, unitIds: archived, taskIds: archived }),
);

type Stand = { startsAt?: string; endsAt?: string; technicianId?: string };
/** Where a visit was put, and where it was before it was moved or given away. Instants as ISO 8601. */
export type VisitEventDetail = Stand & { from?: Stand; to?: Stand; why?: string };
const place = { startsAt: z.string().optional(), endsAt: z.string().optional(), technicianId: z.string().optional() };
const stand = z.looseObject(place);
export const STORED_VISIT_EVENT = stored<VisitEventDetail>(
  'detail of what happened to a visit',
  1,
  z.looseObject({ ...place, from: stand.optional(), to: stand.optional(), why: z.string().optional() }),
);

/** What a change of a rule rested on; which figures, the kind of task says. */
export type ChangeEvidence = { wouldHave?: string; wouldHaveDueOn?: string; [figure: string]: unknown };
export const STORED_CHANGE_EVIDENCE = stored<ChangeEvidence>(
  'evidence of a rule',
  1,
  z.looseObject({ wouldHave: z.string().optional(), wouldHaveDueOn: z.string().optional() }),
);

/** What the office made of an entry. */
export type EntryDetail = {
  /** Everything that is asked, and of it what the tablet is told where that is less. */
  note?: string;
  forTablet?: string;
  /** The entry of another tablet that says the same. */
  same?: string;
  clockCorrectedMs?: number;
  visitId?: string;
};
export const STORED_ENTRY_DETAIL = stored<EntryDetail>(
  'answer to an entry',
  2,
  z.looseObject({
    note: z.string().optional(),
    forTablet: z.string().optional(),
    same: z.string().optional(),
    clockCorrectedMs: z.number().optional(),
    visitId: z.string().optional(),
  }),
  { 1: renamed({ told: 'forTablet' }) },
);

/** Demo shops of before kept the number itself. */
const numbersAsText = (json: unknown) =>
  typeof json === 'object' && json !== null
    ? Object.fromEntries(
        Object.entries(json).map(([key, e]) => [key, typeof e?.value === 'number' ? { text: String(e.value), unit: e.unit } : e]),
      )
    : json;

const field = z.enum(READING_FIELDS);
export const STORED_ENTERED = stored<Entered>(
  'figures as typed',
  1,
  z.partialRecord(field, z.looseObject({ text: z.string(), unit: z.string() })),
  { 0: numbersAsText },
);
export const STORED_QUESTIONED = storedList<Questioned>(
  'questions about a reading',
  1,
  z.object({ field, question: z.string(), answer: z.string() }),
);
