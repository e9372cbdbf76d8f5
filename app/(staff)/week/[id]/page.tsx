import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { todayIn } from '@/lib/core/calendar';
import { freeAtAskedTime } from '@/lib/features/visits/reads/asked-other-time';
import { siteTimeOf } from '@/lib/core/planning/on-site';
import { isId } from '@/lib/core/ids/is-id';
import { jobsOnVisit } from '@/lib/features/jobs/reads/of-visit';
import { learnedMinutes } from '@/lib/features/planning/reads/learned-minutes';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { bookableTechnicians, kitchenTasks, visitToManage } from '@/lib/features/visits/reads/visits';
import { VISIT_EVENT_LABEL } from '@/lib/core/visits/events';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { dayIn, timeIn } from '@/lib/core/calendar/when';
import { hoursWords } from '../_components/hours';
import { AskedTime } from '../_components/asked-time';
import { Trail } from '@/app/_ui/page/trail';
import { JobsOnVisit } from '../_components/jobs-on-visit';
import { WorkForm } from '../_components/work-form';
import { CancelForm, GiveForm, MoveBack, MoveForm, RestoreForm } from '../_components/change-forms';

export const metadata: Metadata = { title: 'Visit' };

const FREE_SHOWN = 8;

export default definePage('read:visit', async ({ db, now, params, query }) => {
  const visit = isId(params.id) ? await visitToManage(db, params.id) : null;
  if (!visit) notFound();
  const { kitchen } = visit;
  const booked = visit.status === 'booked';
  const jobs = await jobsOnVisit(db, visit.id);
  const [technicians, all, times, free] = await Promise.all([
    bookableTechnicians(db),
    booked ? kitchenTasks(db, kitchen.id) : [],
    booked ? learnedMinutes(db, now, kitchen.id) : null,
    booked ? freeSlotsForVisit(db, visit.id, now, { limit: FREE_SHOWN, noticeMs: 0 }) : [],
  ]);
  const add = new Set((query.add ?? '').split(',').filter(isId));
  const tasks = all.map((t) => (t.onVisit?.id === visit.id ? { ...t, onVisit: null } : t));
  const defaults = {
    technicianId: visit.technician.id,
    date: todayIn(kitchen.timeZone, visit.startsAt),
    from: timeIn(visit.startsAt, kitchen.timeZone),
    minutes: String(Math.round((visit.endsAt - visit.startsAt) / 60_000)),
  };
  const asked =
    visit.status === 'booked' && visit.customerReply === 'other_time'
      ? { at: visit.asksFor, free: visit.asksFor === null ? null : await freeAtAskedTime(db, visit.id, visit.asksFor, now) }
      : null;
  const from = visit.events.find((e) => e.movedFrom)?.movedFrom;
  const back = from && {
    technicianId: from.technicianId,
    date: todayIn(kitchen.timeZone, from.startsAt),
    from: timeIn(from.startsAt, kitchen.timeZone),
    minutes: String(Math.round((from.endsAt - from.startsAt) / 60_000)),
  };
  return (
    <>
      <Trail
        items={[
          { href: '/week', label: 'Week' },
          {
            href: `/kitchens/${kitchen.id}`,
            label: kitchen.name === kitchen.customer ? kitchen.name : `${kitchen.customer}, ${kitchen.name}`,
          },
        ]}
      />
      <PageHead
        title={kitchen.name}
        lead={`${dayIn(visit.startsAt, kitchen.timeZone)}, ${timeIn(visit.startsAt, kitchen.timeZone)}–${timeIn(visit.endsAt, kitchen.timeZone)}, ${visit.technician.name}. ${visit.status === 'cancelled' ? `Cancelled: ${visit.cancelReason}` : ''}`}
        actions={
          <>
            {booked ? null : <ButtonLink href={`/visits/${visit.id}`}>What was found</ButtonLink>}
            <ButtonLink href={`/week?day=${defaults.date}`}>The week</ButtonLink>
          </>
        }
      />
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-[minmax(0,1fr)_22rem]">
        <div className="flex flex-col gap-6">
          <JobsOnVisit jobs={jobs} />
          {asked ? (
            <AskedTime
              visitId={visit.id}
              version={visit.version}
              asksFor={asked.at}
              timeZone={kitchen.timeZone}
              note={visit.replyNote}
              technician={technicians.find((t) => t.id === asked.free) ?? null}
              now={visit.technician}
              minutes={defaults.minutes}
            />
          ) : null}
          {visit.status === 'cancelled' && visit.startsAt > now.getTime() ? (
            <Sheet title="Cancelled">
              <p className="mb-3">Its tasks are free to book. If that was a slip:</p>
              <RestoreForm visitId={visit.id} version={visit.version} />
            </Sheet>
          ) : null}
          {booked && times ? (
            <Sheet title="What is done there" aside={visit.fixed ? <State shape="held">Fixed</State> : null}>
              <WorkForm
                key={visit.version}
                visitId={visit.id}
                version={visit.version}
                tasks={tasks}
                chosen={[...visit.tasks.map((t) => t.taskId), ...tasks.filter((t) => add.has(t.id) && !t.onVisit).map((t) => t.id)]}
                today={todayIn(kitchen.timeZone, now.getTime())}
                siteTime={siteTimeOf(times, kitchen.id)}
                minutes={Number(defaults.minutes)}
                note={visit.note}
                fixed={visit.fixed}
              />
            </Sheet>
          ) : (
            <Sheet title="Tasks">
              {visit.note ? <p className="mb-2 whitespace-pre-line">{visit.note}</p> : null}
              {visit.tasks.length === 0 ? <p className="text-soft">No task of the rules stands on this visit.</p> : null}
              <ul>
                {visit.tasks.map((t) => (
                  <li key={t.id} className="flex flex-wrap justify-between gap-x-4 border-b border-line py-1.5 last:border-0">
                    <span>
                      <a href={`/units/${t.unitId}`}>{t.unit}</a> · {t.kind}
                    </span>
                    <span className="text-soft">
                      {t.outcome === 'planned' ? 'planned' : t.outcome === 'done' ? 'done' : `not done: ${t.reason}`}
                    </span>
                  </li>
                ))}
              </ul>
            </Sheet>
          )}
          {visit.status === 'booked' ? (
            <>
              {back && from.startsAt < now.getTime() ? (
                <p className="text-soft">
                  It stood on {dayIn(from.startsAt, kitchen.timeZone)}, {back.from}. That is past, so it cannot move back.
                </p>
              ) : back ? (
                <MoveBack
                  visitId={visit.id}
                  version={visit.version}
                  to={back}
                  words={`${dayIn(from.startsAt, kitchen.timeZone)}, ${back.from}`}
                />
              ) : null}
              <MoveForm
                visitId={visit.id}
                version={visit.version}
                technicians={technicians.map((t) => ({ value: t.id, label: t.name }))}
                defaults={defaults}
                free={free.map((f) => ({
                  technicianId: f.technicianId,
                  date: todayIn(kitchen.timeZone, f.start),
                  from: timeIn(f.start, kitchen.timeZone),
                  words: `${dayIn(f.start, kitchen.timeZone)}, ${timeIn(f.start, kitchen.timeZone)}, ${technicians.find((t) => t.id === f.technicianId)?.name ?? ''}`,
                }))}
              />
            </>
          ) : null}
          {visit.status === 'started' ? (
            <GiveForm
              visitId={visit.id}
              version={visit.version}
              technicians={technicians.filter((t) => t.id !== visit.technician.id).map((t) => ({ value: t.id, label: t.name }))}
            />
          ) : null}
          {visit.status === 'booked' || visit.status === 'started' ? (
            <CancelForm
              visitId={visit.id}
              version={visit.version}
              started={visit.status === 'started'}
              told={visit.endsAt > now.getTime()}
            />
          ) : null}
        </div>
        <div className="flex flex-col gap-6">
          <Sheet title="The kitchen">
            <p>
              <Link href={`/kitchens/${kitchen.id}`} className="font-bold">
                {kitchen.name === kitchen.customer ? kitchen.name : `${kitchen.customer}, ${kitchen.name}`}
              </Link>
            </p>
            <p>{kitchen.address}</p>
            <p className="mt-2">
              {kitchen.contact ? `${kitchen.contact}, ` : ''}
              {kitchen.phone ? <a href={`tel:${kitchen.phone}`}>{kitchen.phone}</a> : <span className="text-soft">no number on file</span>}
            </p>
            <p>
              {kitchen.email ? (
                <a href={`mailto:${kitchen.email}`}>{kitchen.email}</a>
              ) : (
                <span className="text-soft">No e-mail on file.</span>
              )}
            </p>
            <h3 className="mt-3">Can spare its equipment</h3>
            <ul>
              {hoursWords(kitchen.serviceHours).map((l) => (
                <li key={l}>{l}</li>
              ))}
            </ul>
            <h3 className="mt-3">Access</h3>
            <p className="whitespace-pre-line">{kitchen.accessNotes || 'No access notes on file.'}</p>
          </Sheet>
          <Sheet title="History">
            <ol className="flex flex-col gap-2">
              {visit.events.map((e) => (
                <li key={e.id}>
                  <span className="font-bold">{VISIT_EVENT_LABEL[e.kind]}</span> by {e.by}
                  <span className="block text-sm text-soft">
                    {dayIn(e.at, kitchen.timeZone)}, {timeIn(e.at, kitchen.timeZone)}
                    {e.reason ? `: ${e.reason}` : ''}
                  </span>
                </li>
              ))}
            </ol>
          </Sheet>
        </div>
      </div>
    </>
  );
});
