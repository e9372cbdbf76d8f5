import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { can } from '@/lib/core/people/access';
import { todayIn } from '@/lib/core/calendar';
import { dateWords, dayIn } from '@/lib/core/calendar/when';
import { isId } from '@/lib/core/ids/is-id';
import { CERTIFICATE_LABEL } from '@/lib/core/refrigerant-book';
import { SEALED_STEP_TEXT } from '@/lib/core/sealed/steps';
import { workLines } from '@/lib/core/sealed/said';
import { unitPage } from '@/lib/features/equipment/reads/units';
import { unitsOf } from '@/lib/features/people/reads/people';
import { leaksOfUnit } from '@/lib/features/refrigerant-book/reads/leaks';
import { recordsOfUnit } from '@/lib/features/sealed/reads/records';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { Facts } from '@/app/_ui/tables/facts';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { UnitTrail } from '../_components/unit-trail';
import { LeakTable } from '../../../refrigerants/book/_components/leak-table';
import { LeakTestForm } from '../../../refrigerants/book/_components/leak-test-form';
import { bulk, LEGAL } from '../../../refrigerants/book/_components/words';

export const metadata: Metadata = { title: 'Refrigerant of a unit' };

export default definePage('read:refrigerant-book', async ({ db, actor, now, params }) => {
  const unit = isId(params.id) ? await unitPage(db, params.id) : null;
  if (!unit) notFound();
  const zone = unit.kitchen.timeZone;
  const today = todayIn(zone, now.getTime());
  const [leaks, records, units, shop] = await Promise.all([
    leaksOfUnit(db, unit.id, today),
    recordsOfUnit(db, unit.id),
    unitsOf(db, actor.userId),
    shopSettings(db),
  ]);
  if (!leaks) notFound();
  const rates = leaks.annualizing.map((a, i) => ({ ...a, rolling: leaks.rolling[i]?.percent ?? NaN }));
  return (
    <>
      <UnitTrail unit={unit} />
      <PageHead
        title={`Refrigerant of ${unit.name}`}
        lead="What was weighed in and out, how fast it loses its charge, and what was done to its circuit."
      />
      <div className="flex flex-col gap-6">
        <LeakTable
          title="Its last addition"
          leaks={leaks.additions.length > 0 ? [leaks] : []}
          units={units}
          method={shop?.leakMethod ?? 'annualizing'}
        />
        {rates.length > 0 ? (
          <Sheet title="Leak rate at each addition">
            <Table label="Leak rate at each addition">
              <thead>
                <tr>
                  {['Day', 'Added', 'Annualized, % a year', 'Days it stands on', 'Rolling year, %'].map((h) => (
                    <Th key={h}>{h}</Th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {rates.toReversed().map((r) => (
                  <tr key={r.on}>
                    <Td>{dateWords(r.on)}</Td>
                    <Td>{bulk(r.addedKg, units)}</Td>
                    <Td>{r.percent.toFixed(1)}</Td>
                    <Td>{r.days}</Td>
                    <Td>{r.rolling.toFixed(1)}</Td>
                  </tr>
                ))}
              </tbody>
            </Table>
            <p className="mt-2 text-sm text-soft">The first counts as a year: nothing is known of before. {LEGAL}</p>
          </Sheet>
        ) : null}
        <Sheet title="Verification tests">
          {leaks.tests.length === 0 ? <p className="mb-3 text-soft">None on file.</p> : null}
          <ul className="mb-3">
            {leaks.tests.map((t, i) => (
              <li key={i}>
                {dateWords(t.on)}: {t.kind === 'initial' ? 'first test' : 'follow-up test'} {t.passed ? 'passed' : 'failed'}
                {t.from === 'record' ? <span className="text-soft"> (pressure test of a repair record)</span> : null}
              </li>
            ))}
          </ul>
          {can(actor, 'write:refrigerant-book') ? <LeakTestForm unitId={unit.id} today={today} /> : null}
        </Sheet>
        {records.map((r) => (
          <Sheet
            key={r.id}
            title={`Repair record of ${dayIn(r.begunAt, zone)}`}
            aside={<span className="text-sm text-soft">{r.steps.length} of 9 steps written</span>}
          >
            <ol className="flex flex-col gap-4">
              {r.steps.map((s) => (
                <li key={s.id}>
                  <h3>
                    {SEALED_STEP_TEXT[s.step].title}{' '}
                    <span className="text-sm font-normal text-soft">
                      {dayIn(s.at, zone)}, {s.by}
                      {s.certificate ? `, ${CERTIFICATE_LABEL[s.certificate.kind]} ${s.certificate.number}` : ''}
                    </span>
                  </h3>
                  {s.work ? <Facts items={workLines(s.work, units, (id) => r.cylinders[id])} /> : <p>Left out: {s.skippedWhy}</p>}
                  {s.overruledBy ? (
                    <p>
                      <b>No certificate: {s.overruledBy} answered for it.</b> {s.overruledWhy}
                    </p>
                  ) : null}
                  {s.note ? <p className="whitespace-pre-line">{s.note}</p> : null}
                </li>
              ))}
            </ol>
          </Sheet>
        ))}
      </div>
    </>
  );
});
