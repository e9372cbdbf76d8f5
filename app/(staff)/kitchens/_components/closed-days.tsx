'use client';

import { addDays, type LocalDate } from '@/lib/core/calendar';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { dayWords } from '@/lib/core/calendar/when';
import { BookedOnThem } from '../../_components/open-visits';
import { addClosedDays, removeClosedDays } from '../actions';

export type ClosedRange = { id: string; startsOn: LocalDate; endsOn: LocalDate; reason: string };

const words = ({ startsOn, endsOn }: ClosedRange) => {
  const last = addDays(endsOn, -1);
  return last === startsOn
    ? `${dayWords(startsOn)} ${startsOn.slice(0, 4)}`
    : `${dayWords(startsOn)} to ${dayWords(last)} ${last.slice(0, 4)}`;
};

function Remove({ range }: { range: ClosedRange }) {
  const { form, busy } = useActionForm(removeClosedDays);
  return (
    <ActionForm {...form} className="inline">
      <input type="hidden" name="id" value={range.id} />
      <Button look="quiet" type="submit" disabled={busy} aria-label={`Remove closed days ${words(range)}`}>
        Remove
      </Button>
    </ActionForm>
  );
}

/** Days on which the kitchen is closed to us: hood cleaning, holidays, a private party. */
export function ClosedDays({ kitchenId, ranges, may }: { kitchenId: string; ranges: ClosedRange[]; may: boolean }) {
  const { form, error, busy, data } = useActionForm(addClosedDays);
  return (
    <div className="flex flex-col gap-3">
      {ranges.length === 0 ? <p className="text-soft">No closed days ahead.</p> : null}
      <ul>
        {ranges.map((r) => (
          <li key={r.id} className="flex flex-wrap items-center justify-between gap-2 border-b border-line">
            <span>
              {words(r)} {r.reason ? <span className="text-soft">{r.reason}</span> : null}
            </span>
            {may ? <Remove range={r} /> : null}
          </li>
        ))}
      </ul>
      {may ? (
        <details>
          <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">Add closed days</summary>
          <ActionForm {...form} className="mt-2 grid grid-cols-1 items-start gap-3 sm:grid-cols-2">
            <FormErrors errors={error('')} />
            <input type="hidden" name="kitchenId" value={kitchenId} />
            <Field label="First day" name="from" type="date" error={error('from')} />
            <Field label="Last day" name="to" type="date" error={error('to')} />
            <div className="sm:col-span-2">
              <Field label="Why" name="reason" error={error('reason')} autoComplete="off" />
            </div>
            <Button type="submit" disabled={busy} className="justify-self-start">
              Add
            </Button>
          </ActionForm>
        </details>
      ) : null}
      {may ? <BookedOnThem found={data} /> : null}
    </div>
  );
}
