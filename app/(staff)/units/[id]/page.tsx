import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { can, type Actor } from '@/lib/core/people/access';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { todayIn, type LocalDate } from '@/lib/core/calendar';
import * as eq from '@/lib/core/equipment/build';
import { unitFacts } from '@/lib/core/equipment/unit-words';
import { flammableCaution, refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { coilNow } from '@/lib/core/evidence/coil-now';
import { condenserTask, isForOtherCondenser } from '@/lib/core/tasks';
import { unitEvidence } from '@/lib/features/evidence/reads/evidence';
import { unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { shopFacts } from '@/lib/features/evidence/reads/fouling';
import { jobsOfUnit, standingTrouble, type OpenJob, type SettledJob, type StandingTrouble } from '@/lib/features/equipment/reads/trouble';
import { tasksOfUnit, unitPage, type TaskOnUnit } from '@/lib/features/equipment/reads/units';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { asTyped, Facts } from '@/app/_ui/tables/facts';
import { Fold } from '@/app/_ui/page/fold';
import { PutBack, TakeOff } from '@/app/_ui/forms/off-file';
import { RefrigerantName } from '@/app/_ui/words/refrigerant-name';
import { PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { putUnitBack, takeUnitOff } from '../actions';
import { CoilVerdictSheet } from './_components/coil-verdict';
import { UnitEvidence } from './_components/evidence';
import { Replacement } from './_components/replacement';
import { SettledJobs } from './_components/settled-jobs';
import { Tasks } from './_components/tasks';
import { Trouble } from './_components/trouble';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';

export const metadata: Metadata = { title: 'Unit' };

/** Said in the head, or in a way of its own. */
const IN_HEAD = ['name', 'tag', 'kind', 'placement', 'refrigerant', 'notes'] as const;

export default definePage('read:equipment', async ({ db, actor, now, params, query }) => {
  const [unit, shop] = await Promise.all([isId(params.id) ? unitPage(db, params.id) : null, shopFacts(db)]);
  if (!unit) notFound();
  const { kitchen } = unit;
  const off = unit.archivedAt !== null;
  const writes = can(actor, 'write:equipment');
  const onUnit = tasksOfUnit(db, unit.id);
  const [{ tasks, kinds }, measures, found, jobs, evidence, changes] = await Promise.all([
    onUnit,
    unitsOf(db, actor.userId),
    off ? null : standingTrouble(db, unit.id),
    jobsOfUnit(db, unit.id),
    off ? null : unitEvidence(db, unit, now, { shop, tasks: onUnit, visits: historyOf(query) }),
    writes ? changesOf(db, 'Unit', unit.id) : null,
  ]);
  const trouble = troubleOf(found, jobs.open);
  const edits = writes && !off;
  const today = todayIn(kitchen.timeZone, now.getTime());
  return (
    <>
      <Trail
        items={[
          { href: '/customers', label: 'Customers' },
          { href: `/customers/${kitchen.customer.id}`, label: kitchen.customer.name },
          { href: `/kitchens/${kitchen.id}`, label: kitchen.name },
        ]}
      />
      <PageHead
        title={unit.name}
        lead={`${eq.UNIT_KIND_LABEL[unit.kind]}, ${eq.PLACEMENT_LABEL[unit.placement].toLowerCase()}. Tag ${unit.tag}.`}
        actions={<Ways id={unit.id} actor={actor} off={off} />}
      />
      <Replacement replaces={unit.replaces} by={unit.replacedBy[0] ?? null} />
      {off ? <PutBack id={unit.id} version={unit.version} what="unit" why={unit.archivedWhy} action={putUnitBack} may={writes} /> : null}
      <div className="flex flex-col gap-6">
        <Flammable refrigerant={unit.refrigerant} />
        {evidence ? (
          <Coil unit={unit} evidence={evidence} tasks={tasks} trouble={trouble} books={can(actor, 'book:visit')} today={today} />
        ) : null}
        <Standing trouble={trouble} timeZone={kitchen.timeZone} maySettle={can(actor, 'write:job')} />
        <Tasks
          unitId={unit.id}
          tasks={tasks}
          kinds={kinds.filter((k) => !isForOtherCondenser(k.key, unit))}
          today={today}
          timeZone={kitchen.timeZone}
          limit={shop.overdueLimitDays}
          mayWrite={can(actor, 'write:rules') && !off}
          mayReview={can(actor, 'overrule:rules') && !off}
        />
        {evidence ? (
          <Fold id="evidence" title="Evidence" aside={inEvidence(unit)}>
            <UnitEvidence evidence={evidence} units={measures} name={unit.name} unitId={unit.id} />
          </Fold>
        ) : null}
        <Nameplate unit={unit} measures={measures} />
        <Settled settled={jobs.settled} timeZone={kitchen.timeZone} />
        {edits ? (
          <TakeOff
            id={unit.id}
            version={unit.version}
            what="unit"
            action={takeUnitOff}
            consequence="Its tasks no longer come due. Visits, findings and readings stay, and it can be put back."
          />
        ) : null}
        {changes ? <ChangeHistory changes={changes} timeZone={kitchen.timeZone} /> : null}
      </div>
    </>
  );
});

/** Air tells nothing of a condenser that water cools. */
const inEvidence = ({ condenserKind }: Unit) =>
  condenserKind === 'water_cooled' ? 'every visit' : 'how the coil went, what it costs, every visit';

const historyOf = (query: { visits?: string }) => (query.visits === 'all' ? 'all' : 'latest');

type Unit = NonNullable<Awaited<ReturnType<typeof unitPage>>>;
const troubleOf = (found: StandingTrouble[] | null, jobs: OpenJob[]): Found => found && { found, jobs };

type Found = { found: StandingTrouble[]; jobs: OpenJob[] } | null;
type CoilProps = {
  unit: Unit;
  evidence: NonNullable<Awaited<ReturnType<typeof unitEvidence>>>;
  tasks: TaskOnUnit[];
  trouble: Found;
  books: boolean;
  today: LocalDate;
};

/** What its coil comes to, said once, with the way to book it. */
function Coil({ unit, evidence, tasks, trouble, books, today }: CoilProps) {
  const coil = tasks.find((t) => t.active && t.kindKey === condenserTask(unit)) ?? null;
  return (
    <CoilVerdictSheet
      now={coilNow({ ...evidence, byWater: unit.condenserKind === 'water_cooled', fanDead: fanDead(trouble), next: nextOf(coil) })}
      evidence={evidence}
      task={coil && { id: coil.id, rule: coil.rule, reason: whyNow(coil), onVisit: coil.onVisit }}
      timeZone={unit.kitchen.timeZone}
      book={books ? bookingOf(unit.kitchen.id, tasks, coil?.id, today) : null}
    />
  );
}

/** What stands open besides: of the coil the sheet above has spoken. */
function Standing({ trouble, timeZone, maySettle }: { trouble: Found; timeZone: string; maySettle: boolean }) {
  if (!trouble) return null;
  return <Trouble {...trouble} found={trouble.found.filter((f) => f.aspect !== 'coil')} timeZone={timeZone} maySettle={maySettle} />;
}

/** Why a task's date stands where it does, in the words of whatever set it last. */
const whyNow = (task: { changes: { kind: string; reason: string }[] }): string | null =>
  task.changes.find((c) => c.kind !== 'unlocked' && c.kind !== 'held')?.reason ?? null;

const fanDead = (trouble: Found): boolean => trouble?.found.some((f) => f.aspect === 'condenser_fan') ?? false;
const nextOf = (coil: TaskOnUnit | null) => coil && { dueOn: coil.dueOn, visitId: coil.onVisit?.id ?? null };

function Settled({ settled, timeZone }: { settled: SettledJob[]; timeZone: string }) {
  if (settled.length === 0) return null;
  return (
    <Fold id="settled" title="Jobs settled last">
      <SettledJobs settled={settled} timeZone={timeZone} />
    </Fold>
  );
}

/** Where its coil and all that is due and free would be booked; null where nothing is. */
function bookingOf(kitchenId: string, tasks: TaskOnUnit[], coilId: string | undefined, today: LocalDate) {
  const free = tasks.filter((t) => t.active && !t.onVisit && (t.id === coilId || t.dueOn <= today)).map((t) => t.id);
  return free.length > 0 ? `/week/book?${new URLSearchParams({ kitchen: kitchenId, tasks: free.join(',') })}` : null;
}

function Ways({ id, actor, off }: { id: string; actor: Actor; off: boolean }) {
  return (
    <>
      {can(actor, 'read:fouling') && !off ? <ButtonLink href={`/units/${id}/choice`}>Clean, repair or replace</ButtonLink> : null}
      {can(actor, 'read:refrigerant-book') ? <ButtonLink href={`/units/${id}/refrigerant`}>Refrigerant</ButtonLink> : null}
      {can(actor, 'write:equipment') && !off ? <ButtonLink href={`/units/${id}/edit`}>Edit unit</ButtonLink> : null}
    </>
  );
}

function Flammable({ refrigerant }: { refrigerant: string }) {
  const caution = flammableCaution(refrigerant);
  if (!caution) return null;
  return (
    <p className="border-l-4 border-alarm bg-alarm-wash px-3 py-2 text-sm">
      <span className="font-bold text-alarm">{refrigerantLabel(refrigerant)}.</span> {caution}
    </p>
  );
}

function Nameplate({ unit, measures }: { unit: Unit; measures: MeasureUnits }) {
  return (
    <Fold id="nameplate" title="Nameplate" aside={[unit.make, unit.model, unit.serial].filter(Boolean).join(' ')}>
      <Facts
        items={[
          ['Refrigerant', <RefrigerantName key="r" id={unit.refrigerant} />],
          ...unitFacts(unit, measures, IN_HEAD),
          ['Compressor map', unit.compressorMap ? 'On file' : ''],
          ['Notes', asTyped(unit.notes)],
        ]}
      />
    </Fold>
  );
}
