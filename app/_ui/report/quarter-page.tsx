import type { ReactNode } from 'react';
import { wordsIn } from '@/lib/core/customer-words';
import type { QuarterReport } from '@/lib/core/reports/quarter-for-customer';
import type { ShopOnReport } from '@/lib/core/reports/visit-for-customer';
import { ReportFoot, ReportHead } from './head-and-foot';
import { UnitLines, WorkList } from './work-and-units';

/** A quarter as the customer reads it. Works without script, on a phone and in print. */
export function QuarterPage({ report: r, shop, actions }: { report: QuarterReport; shop: ShopOnReport; actions?: ReactNode }) {
  const say = wordsIn(r.language);
  return (
    <article lang={r.language} className="flex flex-col gap-8">
      <ReportHead shop={shop} kind={say.quarter.name} title={r.title} lead={r.lead} actions={actions} />
      {r.kitchens.map((k) => (
        <section key={k.id} className="flex flex-col gap-3">
          <h2>{k.name}</h2>
          {k.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          {k.work.length > 0 ? (
            <div>
              <h3>{say.quarter.headings.work}</h3>
              <WorkList work={k.work} className="mt-1" />
            </div>
          ) : null}
          {k.units.length > 0 ? <h3>{say.quarter.headings.units}</h3> : null}
          {k.units.map((u) => (
            <section key={u.id} className="break-inside-avoid rounded-lg border border-line bg-sheet p-4">
              <h4 className="font-bold">{u.name}</h4>
              <UnitLines lines={u.lines} next={u.next} />
            </section>
          ))}
        </section>
      ))}
      <ReportFoot shop={shop} />
    </article>
  );
}
