'use client';

import { useEffect, useState } from 'react';
import { useRouter } from 'next/navigation';
import { minutesOnSite, siteTimeWords, type SiteTime } from '@/lib/core/planning/on-site';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { look } from '../actions';
import { WhatIsWrong } from '../../../jobs/_components/what-is-wrong';
import { VisitLength } from '../../_components/slot-fields';
import { Offers } from './offers';
import { UnitsInNeed, type UnitInNeed } from './units-in-need';

type Props = {
  kitchenId: string;
  /** The job that it is for: times for it are looked for at once. */
  job: { id: string; what: string; unitIds: string[]; quotedMinutes: number | null } | null;
  anyHour: boolean;
  kitchens: { value: string; label: string }[];
  /** There are kitchens that `kitchens` leaves out. */
  others: boolean;
  units: UnitInNeed[];
  siteTime: SiteTime;
  defaults: { date: string; from: string };
};

export function SqueezeForm({ kitchenId, job, anyHour, kitchens, others, units, siteTime, defaults }: Props) {
  const { form, error, on, busy, data } = useActionForm(look, { asks: true });
  const router = useRouter();
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  // What was answered before the form was changed is no answer any more.
  const [outdated, setOutdated] = useState<unknown>(null);
  const jobId = job?.id;
  const { ref } = form;
  useEffect(() => {
    if (jobId) ref.current?.requestSubmit();
  }, [jobId, ref]);
  const work = units
    .flatMap((u) => u.tasks)
    .filter((t) => ticked.has(t.id))
    .map((t) => t.minutes);
  return (
    <div className="flex min-w-0 flex-col gap-6">
      <ActionForm {...form} onChange={() => setOutdated(data)} className="flex flex-col gap-5">
        <FormErrors errors={error('')} />
        <Sheet title="What is wrong">
          <div className="flex flex-col gap-4">
            {job ? (
              <Hidden of={{ jobId: job.id, kitchenId }} />
            ) : (
              <Select
                label="Kitchen"
                {...on('kitchenId')}
                data-not-kept
                options={kitchens}
                blank="Choose"
                defaultValue={kitchenId}
                onChange={(e) => {
                  setTicked(new Set());
                  router.replace(e.target.value ? `/week/squeeze?kitchen=${e.target.value}` : '/week/squeeze', { scroll: false });
                }}
                required
              />
            )}
            {others ? (
              <p>
                <ButtonLink href="/week/squeeze" look="quiet">
                  Another customer’s kitchen
                </ButtonLink>
              </p>
            ) : null}
            <WhatIsWrong {...on('what')} defaultValue={job?.what} />
            <UnitsInNeed
              units={units}
              chosen={job?.unitIds}
              ticked={ticked}
              onTick={setTicked}
              error={error('unitIds') ?? error('taskIds')}
            />
          </div>
        </Sheet>
        <Sheet title="When">
          <div className="grid grid-cols-1 gap-4 sm:grid-cols-3">
            <VisitLength
              {...on('minutes')}
              defaultValue={job?.quotedMinutes ?? 60}
              hint={lengthHint(work, siteTime, !!job?.quotedMinutes)}
            />
            <Field label="Day" {...on('date')} type="date" defaultValue={defaults.date} required />
            <Field label="Not before" {...on('from')} type="time" defaultValue={defaults.from} hint="The kitchen’s own time." required />
          </div>
          <label className="mt-4 flex items-center gap-2">
            <input type="checkbox" name="anyHour" className="size-5" defaultChecked={anyHour} /> The kitchen lets us in at any hour
          </label>
        </Sheet>
        <SaveRow busy={busy} label="Look for times" sending="Looking …">
          <ButtonLink href="/week" look="quiet">
            Leave without booking
          </ButtonLink>
        </SaveRow>
      </ActionForm>
      {data && outdated === data ? (
        <p className="text-soft" role="status">
          The form has changed since; look for times again.
        </p>
      ) : null}
      {data && outdated !== data ? <Offers ask={data.ask} answer={data.answer} onBooked={() => form.keeper.current?.saved()} /> : null}
    </div>
  );
}

/** Why the length stands where it does: by the ticked tasks, by the quote, or as finding a fault usually takes. */
function lengthHint(work: readonly number[], siteTime: SiteTime, quoted: boolean): string {
  if (work.length > 0)
    return `The ticked tasks alone take about ${minutesOnSite(siteTime, work)} min with getting in and out; ${siteTimeWords(siteTime)}.`;
  return quoted ? 'As the quote counts its labour.' : 'Finding the fault and making it safe.';
}
