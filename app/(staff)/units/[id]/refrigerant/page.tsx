import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { can } from '@/lib/core/people/access';
import { todayIn } from '@/lib/core/calendar';
import { dateWords, dayIn } from '@/lib/core/calendar/when';
import { isId } from '@/lib/core/ids/is-id';
import { CERTIFICATE_LABEL } from '@/lib/core/refrigerant-book';
import { SEALED_STEP_TEXT } from '@/lib/core/sealed/steps';
import { judgedWords } from '@/lib/core/sealed/judged';
import { workLines } from '@/lib/core/sealed/said';
import type { SealedWork } from '@/lib/core/sealed/work';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
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

const RATE_HEADS = ['Added', 'Annualized, % a year', 'Days it stands on', 'Rolling year, %'] as const;

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
            <Table stack label="Leak rate at each addition">
              <thead>
                <tr>
                  {['Day', ...RATE_HEADS].map((h) => (
                    <Th key={h}>{h}</Th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {rates.toReversed().map((r) => (
                  <tr key={r.on}>
                    <Td className="font-bold">{dateWords(r.on)}</Td>
                    {[bulk(r.addedKg, units), r.percent.toFixed(1), r.days, r.rolling.toFixed(1)].map((x, i) => (
                      <Td key={RATE_HEADS[i]} label={RATE_HEADS[i]}>
                        {x}
                      </Td>
                    ))}
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
            title={`Repair record of ${dateWords(todayIn(zone, r.begunAt.getTime()))}`}
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
                  {s.work ? (
                    <Work work={s.work} units={units} altitudeM={unit.kitchen.altitudeM} cylinders={r.cylinders} />
                  ) : (
                    <p>Left out: {s.skippedWhy}</p>
                  )}
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

type WorkProps = { work: SealedWork; units: MeasureUnits; altitudeM: number; cylinders: Record<string, string | undefined> };

/** What was done, and what its figures were judged to say. */
function Work({ work, units, altitudeM, cylinders }: WorkProps) {
  const judged = judgedWords(work, units, altitudeM);
  return (
    <>
      <Facts items={workLines(work, units, (id) => cylinders[id])} />
      {judged ? <p className="font-bold">{judged}</p> : null}
    </>
  );
}
