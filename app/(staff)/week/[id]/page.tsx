import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { todayIn, clockIn } from '@/lib/core/calendar';
import { momentIn, momentSpanIn } from '@/lib/core/calendar/when';
import { isId } from '@/lib/core/ids/is-id';
import { siteTimeOf } from '@/lib/core/planning/on-site';
import { changesOpen, slotOf } from '@/lib/core/visits/changes';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import { jobsOnVisit } from '@/lib/features/jobs/reads/of-visit';
import { learnedMinutes } from '@/lib/features/planning/reads/learned-minutes';
import { freeAtAskedTime } from '@/lib/features/visits/reads/asked-other-time';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { bookableTechnicians, kitchenTasks, visitToManage } from '@/lib/features/visits/reads/visits';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Trail } from '@/app/_ui/page/trail';
import { AskedTime } from '../_components/asked-time';
import { CancelForm, GiveForm, MoveBack, MoveForm, RestoreForm } from '../_components/change-forms';
import { JobsOnVisit } from '../_components/jobs-on-visit';
import { WorkForm } from '../_components/work-form';
import { KitchenOfVisit } from './_components/kitchen-of-visit';
import { VisitHistory } from './_components/visit-history';
import { VisitTasks } from './_components/visit-tasks';

export const metadata: Metadata = { title: 'Visit' };

const FREE_SHOWN = 8;

export default definePage('read:visit', async ({ db, now, params, query }) => {
  const visit = isId(params.id) ? await visitToManage(db, params.id) : null;
  if (!visit) notFound();
  const { kitchen } = visit;
  const at = { visitId: visit.id, version: visit.version };
  const may = changesOpen(visit, now.getTime());
  const [jobs, technicians, desk] = await Promise.all([
    jobsOnVisit(db, visit.id),
    bookableTechnicians(db),
    may.edit ? deskOf(db, visit, now) : null,
  ]);
  const people = technicians.map((t) => ({ value: t.id, label: t.name }));
  return (
    <>
      <Trail
        items={[
          { href: '/week', label: 'Week' },
          { href: `/kitchens/${kitchen.id}`, label: fullKitchenName(kitchen) },
        ]}
      />
      <PageHead
        title={kitchen.name}
        lead={leadOf(visit)}
        actions={
          <>
            {may.edit ? null : <ButtonLink href={`/visits/${visit.id}`}>What was found</ButtonLink>}
            <ButtonLink href={`/week?day=${todayIn(kitchen.timeZone, visit.startsAt)}`}>The week</ButtonLink>
          </>
        }
      />
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-[minmax(0,1fr)_22rem]">
        <div className="flex flex-col gap-6">
          <JobsOnVisit jobs={jobs} />
          {desk ? <Asked visit={visit} technicians={technicians} free={desk.freeWhenAsked} /> : null}
          {may.restore ? (
            <Sheet title="Cancelled">
              <p className="mb-3">Its tasks are free to book. If that was a slip:</p>
              <RestoreForm {...at} />
            </Sheet>
          ) : null}
          {desk ? (
            <Work visit={visit} desk={desk} add={(query.add ?? '').split(',').filter(isId)} now={now} />
          ) : (
            <VisitTasks note={visit.note} tasks={visit.tasks} />
          )}
          {desk ? (
            <>
              <WayBack visit={visit} now={now} />
              <MoveForm {...at} technicians={people} defaults={standing(visit)} free={freeTimes(desk.free, people, kitchen.timeZone)} />
            </>
          ) : null}
          {may.give ? <GiveForm {...at} technicians={people.filter((t) => t.value !== visit.technician.id)} /> : null}
          {may.cancel ? <CancelForm {...at} started={may.give} kitchenHears={may.kitchenHears} /> : null}
        </div>
        <div className="flex flex-col gap-6">
          <KitchenOfVisit kitchen={kitchen} />
          <VisitHistory events={visit.events} timeZone={kitchen.timeZone} />
        </div>
      </div>
    </>
  );
});

type Db = Parameters<typeof visitToManage>[0];
type Visit = NonNullable<Awaited<ReturnType<typeof visitToManage>>>;
type Desk = Awaited<ReturnType<typeof deskOf>>;
type Person = { id: string; name: string };

/** What changing a booked visit asks to know: its kitchen's tasks, how long they take there, and who is free when. */
async function deskOf(db: Db, { id, kitchen, asksFor }: Visit, now: Date) {
  const [tasks, times, free, freeWhenAsked] = await Promise.all([
    kitchenTasks(db, kitchen.id),
    learnedMinutes(db, now, kitchen.id),
    freeSlotsForVisit(db, id, now, { limit: FREE_SHOWN, noticeMs: 0 }),
    asksFor === null ? null : freeAtAskedTime(db, id, asksFor, now),
  ]);
  return { tasks, siteTime: siteTimeOf(times, kitchen.id), free, freeWhenAsked };
}

const standing = ({ technician, startsAt, endsAt, kitchen }: Visit) =>
  slotOf({ technicianId: technician.id, startsAt, endsAt }, kitchen.timeZone);

function leadOf({ startsAt, endsAt, kitchen, technician, status, cancelReason }: Visit): string {
  const cancelled = status === 'cancelled' ? ` Cancelled: ${cancelReason}` : '';
  return `${momentSpanIn(startsAt, endsAt, kitchen.timeZone)}, ${technician.name}.${cancelled}`;
}

function freeTimes(free: Desk['free'], people: readonly { value: string; label: string }[], timeZone: string) {
  return free.map((f) => ({
    technicianId: f.technicianId,
    date: todayIn(timeZone, f.start),
    from: clockIn(timeZone, f.start),
    label: `${momentIn(f.start, timeZone)}, ${people.find((t) => t.value === f.technicianId)?.label ?? ''}`,
  }));
}

/** What the kitchen asked for instead, if it did. */
function Asked({ visit, technicians, free }: { visit: Visit; technicians: readonly Person[]; free: string | null }) {
  if (visit.customerReply !== 'other_time') return null;
  return (
    <AskedTime
      visitId={visit.id}
      version={visit.version}
      asksFor={visit.asksFor}
      timeZone={visit.kitchen.timeZone}
      note={visit.replyNote}
      technician={technicians.find((t) => t.id === free) ?? null}
      now={visit.technician}
      minutes={standing(visit).minutes}
    />
  );
}

/** @param add tasks that somebody came here to put on the visit */
function Work({ visit, desk, add, now }: { visit: Visit; desk: Desk; add: readonly string[]; now: Date }) {
  const tasks = desk.tasks.map((t) => (t.onVisit?.id === visit.id ? { ...t, onVisit: null } : t));
  const added = tasks.filter((t) => add.includes(t.id) && !t.onVisit);
  return (
    <Sheet title="What is done there" aside={visit.fixed ? <State shape="held">Fixed</State> : null}>
      <WorkForm
        key={visit.version}
        visitId={visit.id}
        version={visit.version}
        tasks={tasks}
        chosen={[...visit.tasks.map((t) => t.taskId), ...added.map((t) => t.id)]}
        today={todayIn(visit.kitchen.timeZone, now.getTime())}
        siteTime={desk.siteTime}
        minutes={Number(standing(visit).minutes)}
        note={visit.note}
        fixed={visit.fixed}
      />
    </Sheet>
  );
}

/** Undoes the last move, as long as the time it stood at is to come. */
function WayBack({ visit, now }: { visit: Visit; now: Date }) {
  const from = visit.events.find((e) => e.movedFrom)?.movedFrom;
  if (!from) return null;
  const when = momentIn(from.startsAt, visit.kitchen.timeZone);
  if (from.startsAt < now.getTime()) return <p className="text-soft">It stood on {when}. That is past, so it cannot move back.</p>;
  return <MoveBack visitId={visit.id} version={visit.version} to={slotOf(from, visit.kitchen.timeZone)} when={when} />;
}
