import { COIL_CLEANING } from '../../../lib/core/tasks';
import { conditionsOf } from '../../../lib/core/condenser/from-record';
import { instantOf, toDay, todayIn, type LocalDate } from '../../../lib/core/calendar';
import {
  estimateVisit,
  fitFleet,
  kitchenBeliefs,
  returnCause,
  visitConsequences,
  type Decision,
  type FindingFact,
  type FleetBelief,
  type ReadingToEstimate,
  type ReturnOnFile,
  type ReturnVisit,
  type TaskOnFile,
  type UnitBelief,
  type UnitFile,
  type VisitOutcome,
} from '../../../lib/core/evidence';
import { DEFAULT_POLICY } from '../../../lib/core/intervals'; // prettier-ignore
import { seenAt } from '../../../lib/core/findings/seen';
import { DEFAULT_HYPER } from '../../../lib/core/fouling';
import { RandomStream } from '../../../lib/core/numerics/random';
import { STORED_ESTIMATE } from '../../../lib/database/stored/estimate';
import { STORED_FLEET_BELIEF } from '../../../lib/database/stored/fouling';
import { STORED_CHANGE_EVIDENCE } from '../../../lib/database/stored/records';
import type { Prisma } from '../../../lib/database/generated/client';
import { CITY } from '../shop/kitchens';
import { shopSettings } from '../shop/assemble';
import type { Booking } from './dispatch';
import type { Seen } from './perform';
import type { SimUnit, World } from './world';

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer I)[] ? I[] : T[K] };
type File = Mutable<UnitFile>;
type Task = Prisma.TaskCreateManyInput;
type Said = { visitId: string; byUserId: string };

const asDate = (d: LocalDate) => new Date(`${d}T00:00:00Z`);
const localOf = (d: Date) => d.toISOString().slice(0, 10) as LocalDate;

/** The shop learning from its visits as it went, by the same steps that the services take. */
export class Learning {
  readonly estimates: Prisma.EstimateCreateManyInput[] = [];
  readonly ruleChanges: Prisma.RuleChangeCreateManyInput[] = [];
  readonly foresights: Prisma.ForesightCreateManyInput[] = [];
  readonly priors: Prisma.FleetPriorCreateManyInput[] = [];
  /** What was last said of a unit's old deposit. */
  readonly oldDeposit = new Map<string, string | null>();
  private fleet: FleetBelief = { fouling: DEFAULT_HYPER, failures: {} };
  private readonly files = new Map<SimUnit, File>();
  private readonly doneOn = new Map<string, LocalDate[]>();
  private readonly random: RandomStream;
  private readonly rules = DEFAULT_POLICY;

  constructor(private readonly world: World) {
    this.random = new RandomStream(world.seed, 'learning');
    for (const kitchen of world.kitchens)
      for (const unit of kitchen.units)
        this.files.set(unit, {
          unitId: unit.row.id as string,
          kitchenId: kitchen.place.kitchen.id as string,
          unit: unit.core,
          // Where a kitchen has no price of its own the shop's holds, as in the services.
          conditions: conditionsOf(
            unit.core,
            {
              ...kitchen.place.kitchen,
              energyPricePerKwh: kitchen.place.kitchen.energyPricePerKwh ?? shopSettings.energyPricePerKwh ?? null,
            },
            shopSettings.currency,
          ),
          startedOn: world.start,
          cleanings: [],
          findings: [],
          readings: [],
          trips: [],
          washed: [],
          changes: [],
        });
  }

  private file(unit: SimUnit): File {
    return this.files.get(unit) as File;
  }

  /** Takes one visit in: estimates, beliefs, rules with their reasons, return visits. */
  after(booking: Booking, seen: readonly Seen[]): void {
    const first = seen[0];
    if (!first) return;
    for (const s of seen) this.takeIn(s);
    const units = new Map(seen.map((s) => [s.unit.row.id as string, s.unit]));
    const done = new Set(
      booking.units.filter((u) => units.has(u.unit.row.id as string)).flatMap((u) => u.tasks.map((t) => t.id as string)),
    );
    const tasks = [...units.values()].flatMap((u) => u.tasks);
    const elsewhere = booking.kitchen.units.filter((u) => !units.has(u.row.id as string)).flatMap((u) => u.tasks);
    const alsoDue = [...new Set(elsewhere.flatMap((t) => (t.active !== false && t.dueOn ? [localOf(t.dueOn as Date)] : [])))]
      .filter((d) => d >= first.date)
      .sort();
    const unitIds = new Set(units.keys());
    const visit = { id: first.visitId, on: first.date, doneTaskIds: done, preferredWeekday: null, unitIds, alsoDue };
    const outcome = visitConsequences(
      {
        files: booking.kitchen.units.map((u) => this.file(u)),
        tasks: tasks.map((t) => this.onFile(t)),
        visit,
        returns: new Map([...units.keys()].map((id) => [id, this.returnsOf(id)])),
        lookedAt: new Map([...units.keys()].map((id) => [id, this.lookedAt(first.visitId, id)])),
      },
      this.fleet,
      this.rules,
    );
    for (const { foundBy: _, ...f } of outcome.foresights)
      this.foresights.push({
        ...f, visitId: first.visitId, on: asDate(f.on), madeAt: new Date(first.at.getTime() + 3600_000), foundById: f.found ? (booking.technician.row.id as string) : null,
        mattedFrom: f.mattedFrom && asDate(f.mattedFrom), mattedTo: f.mattedTo && asDate(f.mattedTo),
      }); // prettier-ignore
    const byId = new Map(tasks.map((t) => [t.id as string, t]));
    const said = { visitId: first.visitId, byUserId: booking.technician.row.id as string };
    for (const d of outcome.decisions)
      this.keep(byId.get(d.taskId) as Task, d, visit, said, seen.find((s) => s.unit.row.id === d.unitId) as Seen);
    this.settle(outcome, first.date, said, seen);
    for (const r of outcome.goBack)
      this.callBack(r, units.get(r.unitId) as SimUnit, said, seen.find((s) => s.unit.row.id === r.unitId) as Seen);
  }

  private onFile(task: Task): TaskOnFile {
    const changes = this.ruleChanges.filter((c) => c.taskId === task.id);
    const changed = changes.findLast((c) => c.kind === 'evidence');
    const held = changes.findLast((c) => c.kind === 'held');
    return {
      taskId: task.id as string,
      unitId: task.unitId,
      kindKey: task.kindKey,
      rule: task.rule,
      anchor: task.anchor ?? 'last_completed',
      anchorDate: localOf(task.anchorDate as Date),
      lastDoneOn: task.lastDoneOn ? localOf(task.lastDoneOn as Date) : null,
      dueOn: localOf(task.dueOn as Date),
      locked: task.locked ?? false,
      minWeeks: task.minWeeks ?? 1,
      maxWeeks: task.maxWeeks ?? 52,
      doneOn: this.doneOn.get(task.id as string) ?? [],
      mine: null,
      lastChangeOn: changed ? todayIn(CITY.timeZone, (changed.at as Date).getTime()) : null,
      lastHeldRule: (held?.evidence as { wouldHave?: string } | undefined)?.wouldHave ?? null,
    };
  }

  private returnsOf(unitId: string): ReturnOnFile[] {
    return this.world.out.jobs
      .filter((j) => j.unitId === unitId && j.cause)
      .map((j) => ({
        id: j.id,
        cause: j.cause ?? '',
        open: !j.closedAt,
        visitId: j.foundVisitId ?? null,
        foundOn: [j.createdAt, ...j.again.map((a) => a.at)].map((at) => todayIn(CITY.timeZone, at.getTime())),
      }));
  }

  private lookedAt(visitId: string, unitId: string): Set<string> {
    return new Set(this.world.out.findings.filter((f) => f.visitId === visitId && f.unitId === unitId && f.grade).map((f) => f.aspect));
  }

  private keep(task: Task, d: Decision, visit: { on: LocalDate; doneTaskIds: ReadonlySet<string> }, said: Said, { at }: Seen): void {
    task.rule = d.rule;
    task.dueOn = asDate(d.dueOn ?? d.fromDueOn);
    task.lastDoneOn = asDate(d.lastDoneOn);
    if (d.kindKey === COIL_CLEANING && d.shown) this.oldDeposit.set(d.unitId, d.deepClean);
    if (visit.doneTaskIds.has(d.taskId)) this.doneOn.set(d.taskId, [...(this.doneOn.get(d.taskId) ?? []), visit.on]);
    for (const c of [d.held, d.record])
      if (c)
        this.ruleChanges.push({
          ...c,
          id: this.random.uuid(),
          taskId: d.taskId,
          at: new Date(at.getTime() + 3600_000),
          ...said,
          fromDueOn: asDate(c.fromDueOn),
          toDueOn: c.toDueOn && asDate(c.toDueOn),
          evidence: STORED_CHANGE_EVIDENCE.write(c.evidence),
        });
  }

  /** Found right, or found again: what becomes of the jobs that sent somebody back. */
  private settle({ met, again }: VisitOutcome, on: LocalDate, { visitId, byUserId }: Said, seen: readonly Seen[]): void {
    const at = seen[0]?.at ?? asDate(on);
    for (const job of this.world.out.jobs) {
      if (job.closedAt) continue;
      const found = again.find((a) => a.id === job.id);
      if (found) {
        job.again.push({ visitId, at, by: byUserId, note: found.note });
        if (found.dueOn) job.dueOn = asDate(found.dueOn);
      } else if (met.includes(job.id))
        Object.assign(job, {
          state: 'done',
          closedAt: at,
          closedById: byUserId,
          closedNote: 'Found right at a visit.',
        });
    }
  }

  private callBack({ cause, what, note, dueOn }: ReturnVisit, unit: SimUnit, { visitId, byUserId }: Said, { at }: Seen): void {
    this.world.out.jobs.push({
      id: this.random.uuid(),
      unitId: unit.row.id as string,
      foundVisitId: visitId,
      cause: returnCause(cause),
      what,
      note,
      urgency: 'week',
      dueOn: asDate(dueOn),
      createdById: byUserId,
      createdAt: at,
      again: [],
    });
    unit.recallDay = toDay(dueOn);
  }

  private takeIn({ unit, visitId, date, cleaned }: Seen): void {
    const file = this.file(unit);
    const { out } = this.world;
    const found = out.findings.filter((f) => f.visitId === visitId && f.unitId === file.unitId);
    const looks = found.map((f) => ({ aspect: f.aspect, grade: f.grade ?? null, phase: f.phase ?? 'found' }));
    const readings = out.readings
      .filter((r) => r.visitId === visitId && r.unitId === file.unitId)
      .map((row): ReadingToEstimate => ({
        readingId: row.id as string,
        unitId: row.unitId,
        at: (row.at as Date).getTime(),
        phase: row.phase,
        record: { ...row, at: row.at, phase: row.phase },
        seen: seenAt(looks, row.phase),
      }));
    for (const { readingId, unitId, at, columns, fact, result } of estimateVisit([file], readings, date).estimates) {
      this.estimates.push({
        id: this.random.uuid(),
        readingId,
        unitId,
        at: new Date(at),
        ...columns,
        result: STORED_ESTIMATE.write(result),
      });
      file.readings.push(fact);
    }
    if (cleaned) file.cleanings.push(date);
    file.findings.push(
      ...found.map((f): FindingFact => ({
        on: date,
        aspect: f.aspect,
        grade: f.grade as string,
        phase: f.phase as 'found' | 'left',
      })),
    );
    if (out.unitEvents.some((e) => e.visitId === visitId && e.unitId === file.unitId && e.kind === 'high_pressure_trip'))
      file.trips.push({ on: date, cause: null });
  }

  /** Fits what the fleet has taught by a date, as the shop does now and then. */
  fit(on: LocalDate): void {
    this.fleet = fitFleet([...this.files.values()], on);
    const fittedAt = new Date(instantOf(on, '03:00', CITY.timeZone));
    this.priors.push({
      id: this.random.uuid(),
      hyper: STORED_FLEET_BELIEF.write(this.fleet),
      modelVersion: this.fleet.fouling.modelVersion,
      fittedAt,
    });
  }

  /** Beliefs about every unit as of the end. */
  beliefs(): UnitBelief[] {
    return this.world.kitchens.flatMap((k) =>
      kitchenBeliefs(
        k.units.map((u) => this.file(u)),
        this.fleet,
      ),
    );
  }
}
