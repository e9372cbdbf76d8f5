import type { ReactNode } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { Field } from '@/app/_ui/fields/field';
import { addDays, type LocalDate } from '@/lib/core/calendar';

/** Which days a page speaks of, and what else narrows it; all of it stands in the address. */
export function PeriodForm({ action, from, to, children }: { action: string; from: LocalDate; to: LocalDate; children?: ReactNode }) {
  return (
    <form role="search" action={action} className="mb-5 grid grid-cols-2 items-end gap-x-3 gap-y-2 no-print sm:flex sm:flex-wrap">
      <Field label="From" name="from" type="date" defaultValue={from} />
      <Field label="Until" name="until" type="date" defaultValue={addDays(to, -1)} />
      {children}
      <Button type="submit">Show</Button>
    </form>
  );
}
