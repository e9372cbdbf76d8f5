import type { Metadata } from 'next';
import Link from 'next/link';
import { roleInfo, type Role } from '@/lib/core/people/access';
import { counted } from '@/lib/core/wording/counted';
import { writeWeekHours } from '@/lib/core/hours';
import { SKILL_LABEL } from '@/lib/core/people/skills';
import { listPeople, ownersGiveCode } from '@/lib/features/people/reads/people';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { momentIn } from '@/lib/core/calendar/when';
import { OwnersCodeForm } from './_components/owners-code-form';

export const metadata: Metadata = { title: 'People' };

const duty = ({ role, alsoVisits }: { role: Role; alsoVisits: boolean }) =>
  `${roleInfo(role).label}${alsoVisits ? ', goes to kitchens too' : ''}`;

export default definePage('manage:people', async ({ db, now }) => {
  const [people, zone, code] = await Promise.all([listPeople(db, now), shopTimeZone(db), ownersGiveCode(db)]);
  return (
    <>
      <PageHead
        title="People"
        lead="Who signs in, what each may do, and what a technician can be booked for."
        actions={
          <ButtonLink href="/people/new" look="primary">
            New person
          </ButtonLink>
        }
      />
      <Table stack label="People">
        <thead>
          <tr>
            <Th>Name</Th>
            <Th className="max-sm:hidden">Role</Th>
            <Th className="max-md:hidden">Skills</Th>
            <Th className="max-lg:hidden">Shift</Th>
            <Th>Sign-in</Th>
          </tr>
        </thead>
        <tbody>
          {people.map((p) => (
            <tr key={p.id} className="hover:bg-sunk">
              <Td>
                <Link href={`/people/${p.id}`} className="font-bold">
                  {p.name}
                </Link>
                <span className="block text-sm wrap-break-word text-soft">{p.email}</span>
                <span className="block text-sm sm:hidden">{duty(p)}</span>
              </Td>
              <Td className="max-sm:hidden">{duty(p)}</Td>
              <Td className="max-md:hidden">{p.skills.map((s) => SKILL_LABEL[s]).join(', ')}</Td>
              <Td className="max-lg:hidden">{writeWeekHours(p.shifts).replaceAll('-', '–')}</Td>
              <Td>
                {p.active ? (
                  p.sessions > 0 ? (
                    <State shape="done" tone="cold">
                      signed in on {counted(p.sessions, 'device')}
                    </State>
                  ) : (
                    <State shape="later" tone="soft">
                      not signed in
                    </State>
                  )
                ) : (
                  <State shape="off" tone="soft">
                    switched off
                  </State>
                )}
                {p.lastSeenAt ? <span className="block text-sm text-soft">last seen {momentIn(p.lastSeenAt.getTime(), zone)}</span> : null}
              </Td>
            </tr>
          ))}
        </tbody>
      </Table>
      <OwnersCodeForm on={code} />
    </>
  );
});
