import { labelOf } from '@/lib/core/typed/closed-set';
import type { Metadata } from 'next';
import Link from 'next/link';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { addDays, localDate, todayIn } from '@/lib/core/calendar';
import { dateWords, dayWords, monthWords } from '@/lib/core/calendar/when';
import { UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { gradeLabel } from '@/lib/core/findings/grades';
import { judgeDates, judgeGrades, judgeMatted, judgeReadings } from '@/lib/core/owner/judged';
import { whole } from '@/lib/core/measures/figures';
import { RIGHT_DAYS as DAYS } from '@/lib/core/owner/days';
import { periodOf } from '@/lib/core/owner/period';
import { foresightsSince, judgedForesights, surprises, type JudgedRow } from '@/lib/features/owner/reads/foresights';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { dbForLongReads } from '@/lib/server/process/long-reads';
import { definePage } from '@/lib/server/doors/define-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Fold } from '@/app/_ui/page/fold';
import { OwnerTabs } from '../_components/owner-tabs';
import { PeriodForm } from '../_components/period-form';
import { JudgedCell, JudgedTable, type JudgedLine } from './_components/judged-table';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Is it right?' };

/** The days of a month (yyyy-mm), for an address. */
function monthAddress(month: string): string {
  const first = localDate(`${month}-01`);
  const next = localDate(`${addDays(first, 31).slice(0, 7)}-01`);
  return `from=${first}&until=${addDays(next, -1)}`;
}

const MATTED = {
  not_enough: 'Not enough visits yet to say whether coils mat as often as expected.',
  holds: 'As often as expected, within chance.',
  more: 'More often than expected: dates come too late. Distrust long intervals until this closes.',
  fewer: 'Less often than expected: dates come earlier than need be.',
} as const;

/** What a line of a table tells, and no more: it is sent. */
const lineOf = ({ by: _, worse: __, worseSquares: ___, ...line }: JudgedRow): JudgedLine => line;

export default definePage('read:fouling', async ({ now, query }) => {
  const db = await dbForLongReads();
  const shop = await shopSettings(db);
  const { from, to } = periodOf(query, todayIn(shop?.timeZone ?? 'UTC', now.getTime()), DAYS);
  const since = await foresightsSince(db);
  const rows = await judgedForesights(db, from, to);
  const all = rows.find((r) => r.by === 'all');
  const by = (what: string) => rows.filter((r) => r.by === what).map(lineOf);
  const odd = all && all.graded > 0 ? await surprises(db, from, to) : [];
  const matted = all && judgeMatted(all);
  return (
    <>
      <PageHead
        title="Is it right?"
        lead={
          since
            ? `What was expected of each coil is written down before anybody looks, and never changed. On file since ${dateWords(toLocalDate(since))}.`
            : 'What is expected of each coil will be written down before anybody looks, and never changed.'
        }
        actions={
          since ? <FileLink href={`/owner/right/export?from=${from}&until=${addDays(to, -1)}`}>Each look, as a file</FileLink> : null
        }
      />
      <OwnerTabs at="/owner/right" />
      <PeriodForm action="/owner/right" from={from} to={to} />
      {!all || (all.graded === 0 && all.read === 0) || !matted ? (
        <Empty>Not enough visits yet. When visits are closed, what was expected of their coils stands here beside what was found.</Empty>
      ) : (
        <div className="flex flex-col gap-6">
          <Sheet title="All visits together">
            <dl className="grid gap-x-8 gap-y-5 sm:grid-cols-2">
              <div>
                <dt className="font-bold">Grade found was a likely one</dt>
                <dd>
                  <JudgedCell of={judgeGrades(all)} />
                </dd>
              </div>
              <div>
                <dt className="font-bold">Reading within its 80 % band</dt>
                <dd>
                  <JudgedCell of={judgeReadings(all)} />
                </dd>
              </div>
              <div>
                <dt className="font-bold">Day on which a coil mats, not proved wrong</dt>
                <dd>
                  <JudgedCell of={judgeDates(all)} most />
                  <div className="text-sm text-soft">
                    {whole(all.tooEarly)} matted before the band began, {whole(all.tooLate)} not yet when it was over.
                  </div>
                </dd>
              </div>
              <div>
                <dt className="font-bold">Coils found matted or packed</dt>
                <dd>
                  <b>{whole(all.matted)}</b>{' '}
                  <span className="text-soft">
                    of {whole(all.graded)}, expected {whole(Math.round(all.mattedExpected))} (give or take{' '}
                    {whole(Math.ceil(1.2816 * Math.sqrt(all.mattedVariance)))})
                  </span>
                  <div className="text-sm">{MATTED[matted.verdict]}</div>
                </dd>
              </div>
            </dl>
          </Sheet>
          <Sheet title="By month">
            <JudgedTable
              label="By month"
              head="Month"
              rows={by('month').map((r) => ({ ...r, name: monthWords(`${r.of}-01`), href: `/owner/right?${monthAddress(r.of)}` }))}
            />
          </Sheet>
          <Sheet title="By kind of unit">
            <JudgedTable
              label="By kind of unit"
              head="Kind"
              rows={by('kind').map((r) => ({ ...r, name: labelOf(UNIT_KIND_LABEL, r.of) }))}
            />
          </Sheet>
          <Sheet title="By who looked">
            <JudgedTable label="By who looked" head="Technician" rows={by('who')} />
          </Sheet>
          <Sheet title="Least expected">
            <ul>
              {odd.map((o) => (
                <li key={`${o.visitId} ${o.unitId}`} className="border-b border-line py-2 last:border-0">
                  <Link href={`/units/${o.unitId}#evidence`} className="font-bold">
                    {o.unit}
                  </Link>
                  , {kitchenInFull(o)}: <Link href={`/visits/${o.visitId}`}>{dayWords(toLocalDate(o.on))}</Link> found{' '}
                  {gradeLabel('coil', o.found).toLowerCase()}, which had {o.chance < 0.01 ? 'less than 1' : Math.round(100 * o.chance)} %
                  chance.
                </li>
              ))}
            </ul>
          </Sheet>
          <Fold id="how" title="How this is reckoned">
            <div className="flex max-w-[80ch] flex-col gap-3">
              <p>
                When a visit is closed, what the record of before that day expects of each coil is written down: the chance of each grade,
                the heat transfer left, and the band of days, one in ten before it and one in ten after it, in which the coil mats. Entries
                of that day have no part in it, and the database refuses to change it afterwards. What was found follows the entries.
              </p>
              <p>
                <b>Grades.</b> The fewest grades that together have four chances in five are the likely ones; they have a little more than
                that, and what they have is what is promised. <b>Readings.</b> Within 1.28 standard deviations of what was expected, the
                reading’s own uncertainty counted in. <b>Days.</b> A look tells on which side of it the day lies: it can prove a band wrong,
                not right. At least four in five should not be proved wrong.
              </p>
              <p>
                The band beside a share is Wilson’s 95 % interval, wider in a table of several rows so that one false alarm in twenty pages
                is all that chance gives. Below 20 looks nothing is said. Coils without any look, reading or cleaning before are left out.
              </p>
            </div>
          </Fold>
        </div>
      )}
    </>
  );
});
