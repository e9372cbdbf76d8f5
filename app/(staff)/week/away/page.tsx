import type { Metadata } from 'next';
import { isLocalDate, todayIn, type LocalDate } from '@/lib/core/calendar';
import { fromLocalDate } from '@/lib/core/calendar/date-column';
import { dayWords } from '@/lib/core/calendar/when';
import { isId } from '@/lib/core/ids/is-id';
import { can } from '@/lib/core/people/access';
import { absences, awayOffers } from '@/lib/features/absences/reads/away';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { bookableTechnicians } from '@/lib/features/visits/reads/visits';
import { definePage } from '@/lib/server/doors/define-page';
import { Button } from '@/app/_ui/buttons/button';
import { Field, Select } from '@/app/_ui/fields/field';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { NobodyGoes } from '../_components/nobody-goes';
import { Away } from './_components/away';
import { HereAfterAll } from './_components/here-after-all';

export const metadata: Metadata = { title: 'Somebody is away' };

export default definePage('book:visit', async ({ db, now, actor, query }) => {
  const today = todayIn(await shopTimeZone(db), now.getTime());
  const technicians = await bookableTechnicians(db);
  const who = isId(query.who) ? technicians.find((t) => t.id === query.who) : undefined;
  const day = (text: string | undefined, or: LocalDate) => (text && isLocalDate(text) ? text : or);
  const from = day(query.from, today);
  const asked = day(query.to, from);
  const to = asked < from ? from : asked;
  const [offers, away] = await Promise.all([
    who ? awayOffers(db, { userId: who.id, from, to }, now) : null,
    absences(db, fromLocalDate(today)),
  ]);
  return (
    <>
      <Trail items={[{ href: '/week', label: 'Week' }]} />
      <PageHead
        title="Somebody is away"
        lead="Sick, or stuck: the visits of those days are offered to others. Nothing changes until you say so, and it can be taken back."
      />
      <div className="flex flex-col gap-6">
        {away.length > 0 ? (
          <Sheet title="Away now or soon">
            <ul>
              {away.map((a) => (
                <li key={a.id} className="flex flex-wrap items-center justify-between gap-3 border-b border-line py-2 last:border-0">
                  <span>
                    <b>{a.name}</b>, {dayWords(a.from)}
                    {a.to === a.from ? '' : ` to ${dayWords(a.to)}`}
                    <span className="text-soft">, {a.moves === 1 ? '1 visit' : `${a.moves} visits`} handed on</span>
                  </span>
                  <HereAfterAll absenceId={a.id} name={a.name} />
                </li>
              ))}
            </ul>
          </Sheet>
        ) : null}
        <Sheet title="Who, and how long">
          {technicians.length === 0 ? (
            <div className="mb-4">
              <NobodyGoes mayAdd={can(actor, 'manage:people')} />
            </div>
          ) : null}
          <form
            action="/week/away"
            className="grid grid-cols-1 items-end gap-4 sm:grid-cols-[minmax(0,14rem)_minmax(0,11rem)_minmax(0,11rem)_auto]"
          >
            <Select
              label="Away"
              name="who"
              blank="Choose"
              options={technicians.map((t) => ({ value: t.id, label: t.name }))}
              defaultValue={who?.id ?? ''}
              required
            />
            <Field label="First day" name="from" type="date" defaultValue={from} required />
            <Field label="Last day" name="to" type="date" defaultValue={to} required />
            <Button type="submit" look={offers ? 'plain' : 'primary'} className="sm:mb-0.5 sm:justify-self-start">
              See who can take over
            </Button>
          </form>
        </Sheet>
        {who && offers ? (
          <Away key={`${who.id} ${from} ${to}`} who={{ id: who.id, name: who.name }} from={from} to={to} visits={offers} />
        ) : null}
      </div>
    </>
  );
});
