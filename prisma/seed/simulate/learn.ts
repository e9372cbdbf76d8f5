import { conditionsOf, readingOf } from '../../../lib/core/condenser/from-record';
import { instantOf, toDay, type LocalDate } from '../../../lib/core/calendar';
import {
  baselineFrom, DEFAULT_SHOP_RULES, dueNow, estimateColumns, estimateReading, evidenceOfChange, fitFleet, heldWords, kitchenBeliefs, ownLimits, pastLosses, returnVisits, reviseTask,
  type FindingFact, type FleetBelief, type ReadingFact, type UnitBelief, type UnitFile,
} from '../../../lib/core/evidence'; // prettier-ignore
import type { Aspect } from '../../../lib/core/findings/grades';
import { DEFAULT_HYPER } from '../../../lib/core/fouling';
import { RandomStream } from '../../../lib/core/numerics/random';
import type { Prisma } from '../../../lib/database/generated/client';
import { CITY } from '../shop/kitchens';
import { shopSettings } from '../shop/assemble';
import type { Booking } from './dispatch';
import type { Seen } from './perform';
import type { SimUnit, World } from './world';

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer I)[] ? I[] : T[K] };
type File = Mutable<UnitFile>;
type Task = Prisma.TaskCreateManyInput;

const asDate = (d: LocalDate) => new Date(`${d}T00:00:00Z`);
const localOf = (d: Date) => d.toISOString().slice(0, 10) as LocalDate;

/** The shop learning from its visits as it went, by the same steps that the services take. */
export class Learning {
  readonly estimates: Prisma.EstimateCreateManyInput[] = [];
  readonly ruleChanges: Prisma.RuleChangeCreateManyInput[] = [];
  readonly priors: Prisma.FleetPriorCreateManyInput[] = [];
  private fleet: FleetBelief = { fouling: DEFAULT_HYPER, failures: {} };
  private readonly files = new Map<SimUnit, File>();
  private readonly random: RandomStream;
  private readonly rules = DEFAULT_SHOP_RULES;

  constructor(private readonly world: World) {
    this.random = new RandomStream(world.seed, 'learning');
    for (const kitchen of world.kitchens)
      for (const unit of kitchen.units)
        this.files.set(unit, {
          unitId: unit.row.id as string,
          kitchenId: kitchen.place.kitchen.id as string,
          unit: unit.core,
          conditions: conditionsOf(unit.core, kitchen.place.kitchen, shopSettings.currency),
          startedOn: world.start,
          cleanings: [],
          findings: [],
          readings: [],
          trips: [],
        });
  }

  private file(unit: SimUnit): File {
    return this.files.get(unit) as File;
  }

  /** Takes one visit in: estimates, beliefs, rules with their reasons, return visits. */
  after(booking: Booking, seen: readonly Seen[]): void {
    for (const s of seen) this.takeIn(s);
    const kitchen = booking.kitchen.units.map((u) => this.file(u));
    const beliefs = kitchenBeliefs(kitchen, this.fleet);
    for (const s of seen) {
      const belief = beliefs.find((b) => b.file.unitId === s.unit.row.id) as UnitBelief;
      const tasks = booking.units.find((u) => u.unit === s.unit)?.tasks ?? [];
      this.revise(s, belief, tasks, booking.technician.row.id as string);
    }
  }

  private takeIn({ unit, visitId, date, cleaned }: Seen): void {
    const file = this.file(unit);
    const { out } = this.world;
    const found = out.findings.filter((f) => f.visitId === visitId && f.unitId === file.unitId);
    const grade = (aspect: string, phase: string) => found.find((f) => f.aspect === aspect && f.phase === phase)?.grade ?? null;
    const fanGrade = grade('fan', 'found');
    for (const row of out.readings.filter((r) => r.visitId === visitId && r.unitId === file.unitId)) {
      const at = (row.at as Date).getTime();
      const baseline = baselineFrom(unit.core, file.readings);
      const cleanings = row.phase === 'after' ? [...file.cleanings, date] : file.cleanings;
      const history = pastLosses(file.readings, baseline, cleanings.at(-1) ?? null, at);
      const reading = readingOf(
        { ...row, at, phase: row.phase },
        { coilGrade: grade('coil', row.phase === 'after' ? 'left' : 'found'), fanGrade },
      );
      const result = estimateReading(unit.core, reading, baseline, file.conditions, history);
      const { fact, columns } = estimateColumns(result, baseline, {
        at,
        on: date,
        phase: row.phase as ReadingFact['phase'],
        fanFailed: fanGrade === 'failed',
      });
      this.estimates.push({
        id: this.random.uuid(),
        readingId: row.id as string,
        unitId: file.unitId,
        at: row.at,
        ...columns,
        result: result as unknown as Prisma.InputJsonValue,
      });
      file.readings.push(fact);
    }
    if (cleaned) file.cleanings.push(date);
    file.findings.push(
      ...found.map((f): FindingFact => ({
        on: date,
        aspect: f.aspect as Aspect,
        grade: f.grade as string,
        phase: f.phase as 'found' | 'left',
      })),
    );
    if (out.unitEvents.some((e) => e.visitId === visitId && e.unitId === file.unitId && e.kind === 'high_pressure_trip'))
      file.trips.push(date);
  }

  private revise({ unit, visitId, date, at }: Seen, belief: UnitBelief, tasks: readonly Task[], by: string): void {
    const own = ownLimits(unit.core, belief.evidence.baseline, belief.file.conditions, this.rules.ownLimits);
    for (const task of tasks) {
      const before = task.lastDoneOn ? localOf(task.lastDoneOn as Date) : null;
      const changed = this.ruleChanges.findLast((c) => c.taskId === task.id && c.kind === 'evidence');
      const newsSince =
        [before, changed ? localOf(changed.at as Date) : null]
          .filter((d): d is LocalDate => d !== null && d < date)
          .sort()
          .at(-1) ?? null;
      const file = {
        taskId: task.id as string,
        unitId: task.unitId,
        kindKey: task.kindKey,
        rule: task.rule,
        anchor: task.anchor ?? 'last_completed',
        anchorDate: localOf(task.anchorDate as Date),
        lastDoneOn: date,
        locked: task.locked ?? false,
        minWeeks: task.minWeeks ?? 1,
        maxWeeks: task.maxWeeks ?? 52,
        newsSince,
      };
      const revision = reviseTask(file, belief, own, this.rules, this.fleet.fouling, null);
      task.lastDoneOn = asDate(date);
      const fromRule = task.rule;
      const fromDueOn = task.dueOn;
      if (revision?.changed) task.rule = revision.rule;
      task.dueOn = asDate(revision?.changed ? revision.dueOn : (dueNow(file) ?? date));
      const said = { taskId: file.taskId, at: new Date(at.getTime() + 3600_000), byUserId: by, visitId };
      const held = revision?.wouldHave;
      const heldBefore = this.ruleChanges.findLast((c) => c.taskId === task.id && c.kind === 'held');
      if (revision && held && (heldBefore?.evidence as { wouldHave?: string } | undefined)?.wouldHave !== held.rule)
        this.ruleChanges.push({
          id: this.random.uuid(),
          ...said,
          kind: 'held',
          fromRule,
          toRule: fromRule,
          fromDueOn: task.dueOn,
          toDueOn: task.dueOn,
          reason: heldWords(held.reason, file.locked),
          evidence: {
            ...evidenceOfChange(revision, date),
            wouldHave: held.rule,
            wouldHaveDueOn: held.dueOn,
          } as unknown as Prisma.InputJsonValue,
          modelVersion: revision.modelVersion,
        });
      if (revision?.changed && revision.reason)
        this.ruleChanges.push({
          id: this.random.uuid(),
          ...said,
          kind: 'evidence',
          fromRule,
          toRule: task.rule,
          fromDueOn,
          toDueOn: task.dueOn,
          reason: revision.reason,
          evidence: evidenceOfChange(revision, date) as unknown as Prisma.InputJsonValue,
          modelVersion: revision.modelVersion,
        });
    }
    const since = belief.file.cleanings.filter((d) => d < date).at(-1) ?? '';
    const tripped = belief.file.trips.some((t) => t > since && t <= date);
    for (const r of returnVisits(date, belief.file.findings, tripped, this.rules.returnWithinDays)) {
      this.world.out.followUps.push({
        id: this.random.uuid(),
        unitId: belief.file.unitId,
        visitId,
        what: r.what,
        note: r.note,
        urgency: 'soon',
        dueOn: asDate(r.dueOn),
        createdById: by,
        createdAt: at,
      });
      unit.recallDay = toDay(r.dueOn);
    }
  }

  /** Fits what the fleet has taught by a date, as the shop does now and then. */
  fit(on: LocalDate): void {
    this.fleet = fitFleet([...this.files.values()], on);
    const fittedAt = new Date(instantOf(on, '03:00', CITY.timeZone));
    this.priors.push({
      id: this.random.uuid(),
      hyper: this.fleet as unknown as Prisma.InputJsonValue,
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
