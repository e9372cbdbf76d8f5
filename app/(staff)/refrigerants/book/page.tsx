import type { Metadata } from 'next';
import Link from 'next/link';
import { can } from '@/lib/core/people/access';
import { todayIn } from '@/lib/core/calendar';
import { dateIn, dateWords } from '@/lib/core/calendar/when';
import { CONTENTS_LABEL } from '@/lib/core/refrigerant-book';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { cylinders, GWP_REPORT, yearOfBook, yearsOfBook } from '@/lib/features/refrigerant-book/reads/book';
import { CHECK_RULES_ON_FILE, chronicIn, leakingUnits, RULES_ON_FILE, unitsToCheck } from '@/lib/features/refrigerant-book/reads/leaks';
import { unitsOf } from '@/lib/features/people/reads/people';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink, FileLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { Trail } from '@/app/_ui/page/trail';
import { CheckTable } from './_components/check-table';
import { ChronicTable } from './_components/chronic-table';
import { LeakTable } from './_components/leak-table';
import { RuleForm } from './_components/rule-form';
import { BALANCE, bulk, LEGAL } from './_components/words';
import { YearTable } from './_components/year-table';

export const metadata: Metadata = { title: 'Refrigerant book' };

export default definePage('read:refrigerant-book', async ({ db, actor, now, query }) => {
  const [shop, units] = await Promise.all([shopSettings(db), unitsOf(db, actor.userId)]);
  const zone = shop?.timeZone ?? 'UTC';
  const today = todayIn(zone, now.getTime());
  const years = await yearsOfBook(db, today, zone);
  const year = years.find((y) => String(y) === query.year) ?? Number(today.slice(0, 4));
  const eu = shop?.leakRuleSet === 'eu';
  const [all, totals, leaking, toCheck] = await Promise.all([
    cylinders(db, zone),
    yearOfBook(db, year, zone),
    leakingUnits(db, today),
    eu ? unitsToCheck(db, today) : [],
  ]);
  const writes = can(actor, 'write:refrigerant-book');
  return (
    <>
      <Trail items={[{ href: '/refrigerants', label: 'Refrigerants' }]} />
      <PageHead
        title="Refrigerant book"
        lead="Every weighing in and out of every cylinder. It is only ever added to: a wrong line is taken back by another."
        actions={
          <>
            {writes ? <ButtonLink href="/refrigerants/book/new">Put a cylinder on file</ButtonLink> : null}
            <FileLink href={`/refrigerants/book/export?year=${year}`}>{year} as CSV</FileLink>
          </>
        }
      />
      <div className="flex flex-col gap-6">
        {all.length === 0 ? (
          <Empty
            action={
              writes ? (
                <ButtonLink href="/refrigerants/book/new" look="primary">
                  Put a cylinder on file
                </ButtonLink>
              ) : null
            }
          >
            Here will stand the shop’s cylinders with what is in them by the book and by the scale. Weighings come from repair records on
            the tablet, or are entered by hand.
          </Empty>
        ) : (
          <Sheet title="Cylinders">
            <Table stack label="Cylinders">
              <thead>
                <tr>
                  {['Cylinder', 'Gas', 'Where', 'By the book', 'Scale less book', ''].map((h) => (
                    <Th key={h} scope="col">
                      {h || <span className="sr-only">State</span>}
                    </Th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {all.map((c) => (
                  <tr key={c.id} className={c.goneAt ? 'text-soft' : ''}>
                    <Td className="font-bold whitespace-nowrap">
                      <Link href={`/refrigerants/book/${c.id}`}>{c.label}</Link>
                    </Td>
                    <Td label="Gas">
                      {refrigerantLabel(c.refrigerant)}, {CONTENTS_LABEL[c.contents].toLowerCase()}
                    </Td>
                    <Td label="Where">{c.goneAt ? `gone ${dateIn(c.goneAt, zone)}` : (c.where?.name ?? 'Shop')}</Td>
                    <Td label="By the book" className="whitespace-nowrap">
                      <b>{bulk(c.bookKg, units)}</b> of {bulk(c.mostKg, units, 0)}
                    </Td>
                    <Td label="Scale less book" className="whitespace-nowrap">
                      {c.differenceKg === null ? '–' : `${bulk(c.differenceKg, units)} ± ${bulk(2 * c.sdKg, units)}`}
                      {c.weighedAt ? <span className="block text-soft">{dateIn(c.weighedAt, zone)}</span> : null}
                    </Td>
                    <Td>
                      {c.goneAt ? null : (
                        <State shape={BALANCE[c.verdict].shape} tone={BALANCE[c.verdict].tone}>
                          {BALANCE[c.verdict].label}
                        </State>
                      )}
                    </Td>
                  </tr>
                ))}
              </tbody>
            </Table>
          </Sheet>
        )}
        <YearTable year={year} years={years} totals={totals} units={units} report={GWP_REPORT} />
        <LeakTable title="Units that took refrigerant" leaks={leaking} units={units} method={shop?.leakMethod ?? 'annualizing'} />
        <ChronicTable year={year} chronic={chronicIn(leaking, year, today)} units={units} />
        {eu ? <CheckTable leaks={toCheck} report={GWP_REPORT} today={today} /> : null}
        <Sheet title="Rules on leaks">
          <p className="max-w-[75ch] text-soft">{LEGAL}</p>
          <ul className="my-3 flex flex-col gap-2">
            {RULES_ON_FILE.map((r) => (
              <li key={r.key}>
                <b>{r.title}</b>: {r.source}. From {dateWords(r.from)}; a charge of {bulk(r.leastChargeKg, units, 0)} or more; above{' '}
                {r.thresholdPercent.commercial_refrigeration} % a year repaired within {r.repairDays} days, follow-up test within{' '}
                {r.followUpDays} more; {r.chronicPercent} % in a calendar year reported. <span className="text-soft">Read {r.read}.</span>
              </li>
            ))}
            {CHECK_RULES_ON_FILE.map((r) => (
              <li key={r.key}>
                <b>{r.title}</b>: {r.source}. From {dateWords(r.from)}
                {r.until ? ` until ${dateWords(r.until)}` : ''}:{' '}
                {steps(r.steps.map((s) => ({ from: `${s.tonnes} t CO2 equivalent`, months: s.months })))}; sealed units below{' '}
                {r.sealedTonnes} t none.
                {r.byMass
                  ? ` R-1234yf and R-1234ze(E) alone: ${steps(r.byMass.map((s) => ({ from: `${s.kg} kg`, months: s.months })))}; sealed below ${r.sealedKg} kg none.`
                  : ''}{' '}
                <span className="text-soft">Read {r.read}.</span>
              </li>
            ))}
          </ul>
          {can(actor, 'manage:shop') && shop ? <RuleForm ruleSet={shop.leakRuleSet} method={shop.leakMethod} /> : null}
        </Sheet>
      </div>
    </>
  );
});

const steps = (list: { from: string; months: number }[]) => list.map((s) => `from ${s.from} every ${s.months} months`).join(', ');
