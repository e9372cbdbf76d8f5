import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { todayIn } from '@/lib/core/calendar';
import { personToEdit, signInFacts, unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { liveSessions } from '@/lib/features/people/reads/sessions';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { definePage } from '@/lib/server/doors/define-page';
import { sessionLines } from '@/app/_ui/sessions/lines';
import { SessionList } from '@/app/_ui/sessions/session-list';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { addDaysOff, endSessions, removeDaysOff } from '../actions';
import { certificatesOf } from '@/lib/features/refrigerant-book/reads/handling';
import { Certificates } from '../_components/certificates';
import { PersonForm } from '../_components/person-form';
import { DayRanges } from '../../_components/day-ranges';
import { ActiveForm, LinkForm, PasswordForm, StepForm } from '../_components/person-side';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';

export const metadata: Metadata = { title: 'Person' };

export default definePage('manage:people', async ({ db, actor, now, params }) => {
  const person = isId(params.id) ? await personToEdit(db, params.id) : null;
  if (!person) notFound();
  const [certificates, facts, sessions, units, zone] = await Promise.all([
    certificatesOf(db, person.id),
    signInFacts(db, person.id),
    liveSessions(db, person.id, now),
    unitsOf(db, actor.userId),
    shopTimeZone(db),
  ]);
  const today = todayIn(zone, now.getTime());
  return (
    <>
      <Trail items={[{ href: '/people', label: 'People' }]} />
      <PageHead title={person.name} lead={person.active ? undefined : 'Switched off: cannot sign in.'} />
      <div className="flex flex-col gap-6">
        <PersonForm key={person.version} person={person} units={units} />
        <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-2">
          <Sheet title="Signed in">
            <SessionList sessions={sessionLines(sessions, actor.sessionId)} timeZone={zone} action={endSessions} userId={person.id} />
          </Sheet>
          <Sheet title="Certificates for refrigerant">
            <Certificates userId={person.id} list={certificates} today={today} />
          </Sheet>
          <Sheet title="Days off">
            <DayRanges
              what="days off"
              of={{ userId: person.id }}
              ranges={person.timeOff.filter((t) => t.endsOn > today)}
              add={addDaysOff}
              remove={removeDaysOff}
            />
          </Sheet>
          <Sheet title="Password">
            <div className="flex flex-col gap-5">
              {person.active ? <LinkForm userId={person.id} email={person.email} /> : null}
              <PasswordForm userId={person.id} name={person.name} />
              {facts.secondStep ? <StepForm userId={person.id} name={person.name} /> : null}
            </div>
          </Sheet>
          <Sheet title={person.active ? 'Leaving the shop' : 'Switched off'}>
            <ActiveForm userId={person.id} version={person.version} active={person.active} name={person.name} />
          </Sheet>
        </div>
        <ChangeHistory changes={await changesOf(db, 'User', person.id)} timeZone={zone} />
      </div>
    </>
  );
});
