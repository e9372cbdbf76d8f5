import type { ReactNode } from 'react';
import { wordsIn } from '@/lib/core/customer-words';
import type { CustomerReport, ShopOnReport } from '@/lib/core/reports/visit-for-customer';
import { ReportFoot, ReportHead } from './head-and-foot';
import { UnitLines, WorkList } from './work-and-units';

type Props = { report: CustomerReport; shop: ShopOnReport; pictureAt: (fileId: string) => string; actions?: ReactNode };

/** A visit's report as the customer reads it. Works without script, on a phone and in print. */
export function ReportPage({ report: r, shop, pictureAt, actions }: Props) {
  const say = wordsIn(r.language);
  return (
    <article lang={r.language} className="flex flex-col gap-8">
      <ReportHead shop={shop} kind={say.report} title={r.title} lead={r.lead} actions={actions} />
      {r.work.length > 0 ? (
        <section>
          <h2>{say.headings.work}</h2>
          <WorkList work={r.work} className="mt-2" />
        </section>
      ) : null}
      {r.food.length > 0 ? (
        <section>
          <h2>{say.headings.food}</h2>
          {r.food.map((line) => (
            <p key={line} className="mt-1">
              {line}
            </p>
          ))}
        </section>
      ) : null}
      <section className="flex flex-col gap-5">
        <h2>{say.headings.units}</h2>
        {r.units.map((u) => (
          <section key={u.id} className="break-inside-avoid rounded-lg border border-line bg-sheet p-4">
            <h3>{u.name}</h3>
            <UnitLines lines={u.lines} next={u.next} />
            {u.photos.before.length + u.photos.after.length > 0 ? (
              <div className="mt-3 grid grid-cols-2 gap-3">
                {(['before', 'after'] as const).map((phase) => (
                  <div key={phase}>
                    <p className="text-sm font-bold">{say.headings[phase]}</p>
                    {u.photos[phase].map((id) => (
                      // eslint-disable-next-line @next/next/no-img-element -- behind the link's own check
                      <img
                        key={id}
                        src={pictureAt(id)}
                        alt={`${u.name}, ${say.headings[phase].toLowerCase()}`}
                        className="mt-1 w-full rounded-md"
                      />
                    ))}
                  </div>
                ))}
              </div>
            ) : null}
          </section>
        ))}
      </section>
      {r.signature.line ? (
        <figure className="max-w-xs">
          {r.signature.png ? (
            // eslint-disable-next-line @next/next/no-img-element -- drawn on the spot, part of the record
            <img
              src={`data:image/png;base64,${r.signature.png}`}
              alt={r.signature.line}
              className="w-full rounded-md border border-line bg-white"
            />
          ) : null}
          <figcaption className="mt-1 text-soft">{r.signature.line}</figcaption>
        </figure>
      ) : null}
      <ReportFoot shop={shop} />
    </article>
  );
}
