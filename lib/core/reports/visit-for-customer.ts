import { customerDay, customerTime } from '../calendar/when';
import { wordsIn, type CustomerWords, type Language } from '../customer-words';
import type { EstimateOk } from '../condenser/types';
import { ASPECTS, isClean, type Aspect } from '../findings/grades';
import type { JobUrgency } from '../jobs/states';
import { lower } from '../wording/lower';
import { formatBand, kelvinToCelsius, kelvinToFahrenheit } from '../measures';
import type { MeasureUnits } from '../measures/preferred';
import { COST_DAYS, foundWords, nextLine, taskWords, type NextTask } from './customer-lines';
import type { FindingReport, ReadingReport, UnitReport, VisitReport } from '../tablet/visit-report';

/** What the customer gets in hand after a visit: plain sentences, in one language, of what stands on file. */
export type CustomerReport = {
  language: Language;
  title: string;
  lead: string[];
  units: UnitForCustomer[];
  /** Open work with its urgency. */
  work: { unit: string; what: string; soon: string; urgency: JobUrgency }[];
  food: string[];
  signature: { line: string; png: string | null };
};
/** Who stands at the head and the foot of it. `logo`: a PNG in base64. */
export type ShopOnReport = { name: string; phone: string; email: string; footer: string; logo: string | null };
export type UnitForCustomer = { id: string; name: string; lines: string[]; next: string[]; photos: { before: string[]; after: string[] } };

/** What the report says beyond the visit itself: when each task comes next, and what is still open. */
export type AroundVisit = {
  shop: string;
  next: (NextTask & { unitId: string })[];
  jobs: { unitNames: string[]; what: string; urgency: JobUrgency }[];
};

const MOST_PHOTOS = 4;

export function visitForCustomer(visit: VisitReport, around: AroundVisit, language: Language, units: MeasureUnits): CustomerReport {
  const say = wordsIn(language);
  const zone = visit.kitchen.timeZone;
  const at = (ms: number) => customerTime(ms, zone, language);
  const seen = visit.units.filter((u) => u.findings.length + u.readings.length + u.photos.length > 0 || u.outcome !== null || isDone(u));
  const nameOf = (id: string) => visit.units.find((u) => u.id === id)?.name ?? '';
  const arrived = visit.arrivedAt ?? visit.startsAt;
  const worked = seen.filter((u) => !u.outcome || u.outcome.outcome === 'seen').length;
  return {
    language,
    title: say.of(visit.kitchen.name, customerDay(arrived, zone, language)),
    lead: [
      say.cameFrom(visit.technician.name, around.shop, at(arrived), visit.leftAt ? at(visit.leftAt) : ''),
      say.lookedAfter(worked),
      around.jobs.length > 0 ? say.openJobs(around.jobs.length) : say.allWell,
      ...(visit.foodWarnings.length > 0 ? [say.foodSaid] : []),
      ...(seen.some(isMeasured) ? [say.bands] : []),
    ],
    units: seen.map((u) => ({
      id: u.id,
      name: u.name,
      lines: unitLines(u, say, units),
      next: around.next.filter((n) => n.unitId === u.id).map((n) => nextLine(n, say, language)),
      photos: { before: photosOf(u, 'before'), after: photosOf(u, 'after') },
    })),
    work: around.jobs.map((j) => ({ unit: j.unitNames.join(', '), what: j.what, soon: say.job[j.urgency], urgency: j.urgency })),
    food: [
      ...visit.foodWarnings.map((w) => `${nameOf(w.unitId)}: ${say.box(temperature(w.boxK, units), w.toldTo, at(w.toldAt))}`),
      ...(visit.foodWarnings.length > 0 ? [say.boxCaution] : []),
    ],
    signature: signatureWords(visit, say),
  };
}

const isDone = (u: UnitReport) => u.tasks.some((t) => t.outcome !== 'planned');

function unitLines(u: UnitReport, say: CustomerWords, units: MeasureUnits): string[] {
  if (u.outcome?.outcome === 'could_not_reach') return [say.noReach(u.outcome.reason)];
  if (u.outcome?.outcome === 'gone') return [say.gone];
  const done = u.tasks.filter((t) => t.outcome === 'done').map((t) => taskWords(say, t));
  return [
    ...ASPECTS.flatMap((aspect) =>
      aspectLines(
        u.findings.filter((f) => f.aspect === aspect && !f.superseded),
        aspect,
        say,
      ),
    ),
    ...(done.length > 0 ? [say.done(done)] : []),
    ...u.tasks.filter((t) => t.outcome === 'not_done').map((t) => say.notDone(taskWords(say, t), t.reason)),
    ...(u.parts.length > 0 ? [say.parts(u.parts.map((p) => `${p.quantity} × ${p.what}`))] : []),
    ...readingLines(u.readings, say, units),
  ];
}

function aspectLines(findings: FindingReport[], aspect: Aspect, say: CustomerWords): string[] {
  const found = findings.filter((f) => f.phase === 'found').at(-1);
  const left = findings.filter((f) => f.phase === 'left').at(-1);
  const lines: string[] = [];
  if (found && found.grade === null) lines.push(say.notLooked(say.aspect[aspect], found.why));
  const was = found?.grade ? foundWords(say, aspect, found.grade) : null;
  if (was) lines.push(was);
  if (left?.grade && left.grade !== found?.grade) {
    const is = foundWords(say, aspect, left.grade);
    if (isClean(aspect, left.grade) && found?.grade) lines.push(say.leftClean);
    else if (is) lines.push(say.leftStill(lower(is)));
  }
  return lines;
}

const estimateOf = (readings: ReadingReport[], phase: 'before' | 'after'): EstimateOk | null => {
  const e = readings.filter((r) => r.phase === phase && !r.superseded).at(-1)?.estimate;
  return e?.status === 'ok' ? e : null;
};

/** Whether its lines tell a figure with a band. */
const isMeasured = (u: UnitReport) =>
  (u.outcome?.outcome ?? 'seen') === 'seen' && (estimateOf(u.readings, 'before') ?? estimateOf(u.readings, 'after')) !== null;

function readingLines(readings: ReadingReport[], say: CustomerWords, units: MeasureUnits): string[] {
  const before = estimateOf(readings, 'before');
  const after = estimateOf(readings, 'after');
  const rise = (e: EstimateOk | null) => e && difference(e.riseK, units);
  const lines: string[] = [];
  if (before || after) lines.push(say.overAir(rise(before), rise(after)));
  const cost = before?.extraCostPerDay;
  if (cost) {
    const [lo, hi] = [cost.lo * COST_DAYS, cost.hi * COST_DAYS];
    if (lo > 0) lines.push(say.costing(formatBand(cost.value * COST_DAYS, lo, hi, cost.currency, 1)));
    else if (hi > 0) lines.push(say.costingLittle(`${hi.toFixed(1)} ${cost.currency}`));
  }
  return lines;
}

function difference(k: { value: number; lo: number; hi: number }, { temperature: unit }: MeasureUnits): string {
  const scale = unit === 'F' ? 1.8 : 1;
  return formatBand(k.value * scale, k.lo * scale, k.hi * scale, unit === 'F' ? '°F' : '°C', 0);
}

const temperature = (k: number, { temperature: unit }: MeasureUnits): string =>
  unit === 'F' ? `${Math.round(kelvinToFahrenheit(k))} °F` : `${Math.round(kelvinToCelsius(k) * 2) / 2} °C`;

/** The first and the last of many say enough. */
function photosOf(u: UnitReport, phase: 'before' | 'after'): string[] {
  const ids = u.photos.filter((p) => p.phase === phase).flatMap((p) => p.fileId ?? []);
  return ids.length <= MOST_PHOTOS ? ids : [...ids.slice(0, MOST_PHOTOS - 1), ...ids.slice(-1)];
}

function signatureWords(visit: VisitReport, say: CustomerWords): CustomerReport['signature'] {
  if (!visit.signature) return { line: '', png: null };
  return visit.signature.nobody ? { line: say.nobody, png: null } : { line: say.signed(visit.signature.by), png: visit.signature.png };
}
