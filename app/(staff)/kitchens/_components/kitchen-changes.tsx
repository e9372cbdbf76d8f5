'use client';

import type { LocalDate } from '@/lib/core/calendar';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { sayKitchenChanged } from '../actions';

/** A fryer added, another menu, other hours: said by the office, so that nobody has to find it out from packed coils. */
export function KitchenChanges({ kitchenId, today }: { kitchenId: string; today: LocalDate }) {
  const { form, error, on, busy, data } = useActionForm(sayKitchenChanged);
  return (
    <>
      <p className="mb-3 text-soft">
        A fryer added, another menu, longer hours. What is expected of every coil here follows at once, its interval at the next visit.
      </p>
      <ActionForm {...form} className="grid grid-cols-1 items-start gap-3 sm:grid-cols-2">
        <FormErrors errors={error('')} />
        <Hidden of={{ kitchenId }} />
        <Field label="What changed" {...on('what')} autoComplete="off" placeholder="Second fryer" />
        <Field label="Since" {...on('since')} type="date" defaultValue={today} max={today} />
        <Select
          label="Its coils now breathe"
          {...on('breathes')}
          defaultValue="more"
          options={[
            { value: 'more', label: 'more grease or lint' },
            { value: 'less', label: 'less grease or lint' },
          ]}
        />
        <Button type="submit" disabled={busy} className="self-end justify-self-start">
          Keep it
        </Button>
      </ActionForm>
      {data ? <p role="status">Kept for {data.units === 1 ? 'one unit' : `${data.units} units`}.</p> : null}
    </>
  );
}
