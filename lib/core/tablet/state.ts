import type { JobUrgency } from '../jobs/states';
import type { CleanBaseline, PastLoss } from '../condenser/types';
import type { CompressorMap } from '../condenser/compressor/ten-coefficient';
import type { UnitValues } from '../equipment/unit-fields';
import type { Aspect } from '../findings/grades';
import type { CertificateOnFile } from '../refrigerant-book/certificates';
import type { PartOnList } from '../parts/places';
import type { CylinderOnFile } from '../refrigerant-book/ways';
import type { OpenRecord, SealedStepEntry } from '../sealed/work';
import type { DateHabit } from '../measures/habits';
import type { MeasureUnits } from '../measures/preferred';
import type { Payloads, ReadingValues } from '../entries/entries';

/** What a tablet holds of one visit. Plain data: it goes through JSON and IndexedDB as it is. Times are ISO instants. */

/** What is held of an entry: what it said, under its id. */
type Held<K extends keyof Payloads, Left extends keyof Payloads[K] = never> = Omit<Payloads[K], Left> & { id: string };

export type FindingEntry = Held<'finding.set', 'replaces'> & { at: string };
export type ReadingEntry = Held<'reading.add', 'replaces' | 'entered'> & { at: string };
export type OutcomeEntry = Payloads['unit.outcome'];
export type PhotoEntry = Held<'photo.attach', 'bytes'> & { fileId: string | null };
export type PartEntry = Held<'part.use'>;
export type FollowUpEntry = Held<'follow_up.add'>;
/** A job as the technician meets it: booked on this visit, or open in this kitchen and nothing it waits for. */
export type JobOnVisit = {
  id: string;
  number: number;
  what: string;
  note: string;
  urgency: JobUrgency;
  booked: boolean;
  unitIds: string[];
  /** What the quote that was agreed counts on, so that nobody types it again. */
  parts?: QuotedPart[];
};
export type QuotedPart = { partId: string | null; number: string; what: string; quantity: number };
export type JobOutcomeEntry = Held<'job.outcome'> & { at: string };
export type FoodWarningEntry = Held<'food_warning.add'>;
export type { OpenRecord, SealedStepEntry } from '../sealed/work';
export type EventEntry = Held<'event.add'>;
export type SignatureEntry = Omit<Payloads['signature.set'], 'png'>;

export type Entries = {
  arrivedAt: string | null;
  leftAt: string | null;
  findings: FindingEntry[];
  readings: ReadingEntry[];
  outcomes: OutcomeEntry[];
  photos: PhotoEntry[];
  parts: PartEntry[];
  followUps: FollowUpEntry[];
  /** Not there on a tablet that last heard of the office before there were any. */
  jobOutcomes?: JobOutcomeEntry[];
  foodWarnings: FoodWarningEntry[];
  events: EventEntry[];
  signature: SignatureEntry | null;
  /** Steps on sealed systems; not there on a tablet that last heard of the office before there were any. */
  sealed?: SealedStepEntry[];
};

export type VisitTaskOnFile = {
  taskId: string;
  unitId: string;
  kindKey: string;
  label: string;
  minutes: number;
  lowSide: boolean;
  dueOn: string;
  outcome: 'planned' | 'done' | 'not_done';
  reason: string;
};

export type StandingTask = Omit<VisitTaskOnFile, 'unitId' | 'outcome' | 'reason'>;

/** One earlier visit to the unit, for the page that shows the last three. */
export type PastVisit = {
  visitId: string;
  at: string;
  by: string;
  findings: Pick<FindingEntry, 'aspect' | 'phase' | 'grade' | 'notLookedWhy'>[];
  readings: { phase: 'before' | 'after' | 'log'; values: ReadingValues; verdict: string | null; sentence: string }[];
};

export type UnitOnFile = UnitValues & {
  id: string;
  compressorMap: CompressorMap | null;
  /** What is believed of its clean rise; null before any reading on a cleaned coil. */
  baseline: CleanBaseline | null;
  pastLosses: PastLoss[];
  past: PastVisit[];
  thumbs: { fileId: string; takenAt: string; aspect: Aspect | null; phase: string }[];
  openFollowUps: { what: string; urgency: string }[];
  /** What is said of deposit that plain cleaning leaves; not there on a tablet that last heard of the office before it was. */
  oldDeposit?: string | null;
  /** Its recurring tasks, on this visit or not. */
  tasks: StandingTask[];
  /** Begun at an earlier visit. */
  openSealed?: OpenRecord | null;
};

export type KitchenOnFile = {
  id: string;
  name: string;
  customer: string;
  address: string;
  timeZone: string;
  /** Of the kitchen's clock at the visit. */
  utcOffsetMinutes: number;
  altitudeM: number;
  accessNotes: string;
  contactName: string;
  contactPhone: string;
  energyPricePerKwh: number | null;
  hotDayAirK: number;
};

export type VisitStatus = 'booked' | 'started' | 'done' | 'cancelled';

/** One visit as the office last told it. */
export type VisitOnFile = {
  id: string;
  version: number;
  status: VisitStatus;
  startsAt: string;
  endsAt: string;
  note: string;
  /** Set where the visit has meanwhile been given to someone else. */
  nowWith: string | null;
  cancelReason: string;
  kitchen: KitchenOnFile;
  tasks: VisitTaskOnFile[];
  units: UnitOnFile[];
  /** Not there on a tablet that last heard of the office before there were any. */
  jobs?: JobOnVisit[];
  entries: Entries;
};

/** Where a tablet was as its person wrote down an arrival, degrees and m. Told only by their leave, and beside the entries, which are kept. */
export type ArrivalFix = { id: string; visitId: string; lat: number; lng: number; accuracyM: number; at: string };
export type ArrivalsTold = { allow?: boolean; fixes: readonly ArrivalFix[] };

/** Who holds the tablet, and how figures are shown to them. */
export type Me = {
  userId: string;
  name: string;
  role: string;
  temperatureUnit: MeasureUnits['temperature'];
  pressureUnit: MeasureUnits['pressure'];
  massUnit: MeasureUnits['mass'];
  gaugeGrade: string;
  gaugeSpanPa: number;
  currency: string;
  /** How dates and times are written; absent where the office does not say. */
  dates?: DateHabit;
  /** Whether arrivals may be told; null until answered, absent where the office does not ask. */
  sharesArrivals?: boolean | null;
  /** Under which the person may handle refrigerant. */
  certificates?: CertificateOnFile[];
  /** In the shop or in the person's van. */
  cylinders?: CylinderOnFile[];
  /** The shop's list of parts, what lies in a van first; the rest is typed. */
  parts?: PartOnList[];
};
