'use client';

import { addDays, type LocalDate } from '@/lib/core/calendar';
import { dayDateWords, dayWords } from '@/lib/core/calendar/when';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden } from '@/app/_ui/forms/parts';
import { useActionForm, type FormAction } from '@/app/_ui/forms/use-action-form';
import { BookedOnThem, type OpenVisits } from './open-visits';

type Range = { id: string; startsOn: LocalDate; endsOn: LocalDate; reason: string };
type Props = {
  /** What such days are called here. */
  what: 'closed days' | 'days off';
  /** Whose they are, as the form sends it. */
  of: Record<string, string>;
  ranges: readonly Range[];
  may?: boolean;
  add: FormAction<OpenVisits>;
  remove: FormAction<void>;
};

/** Whole days, the last one counted in. */
function daysWords({ startsOn, endsOn }: Range): string {
  const last = addDays(endsOn, -1);
  return last === startsOn ? dayDateWords(startsOn) : `${dayWords(startsOn)} to ${dayDateWords(last)}`;
}

function Remove({ range, what, action }: { range: Range; what: Props['what']; action: Props['remove'] }) {
  const { form, busy } = useActionForm(action);
  return (
    <ActionForm {...form} className="inline">
      <Hidden of={{ id: range.id }} />
      <Button look="quiet" type="submit" disabled={busy} aria-label={`Remove ${what} ${daysWords(range)}`}>
        Remove
      </Button>
    </ActionForm>
  );
}

/** Days on which nothing should be booked: of a kitchen that is closed to us, of somebody who is off. */
export function DayRanges({ what, of, ranges, may = true, add, remove }: Props) {
  return (
    <div className="flex flex-col gap-3">
      {ranges.length === 0 ? <p className="text-soft">No {what} ahead.</p> : null}
      <ul>
        {ranges.map((r) => (
          <li key={r.id} className="flex flex-wrap items-center justify-between gap-2 border-b border-line">
            <span>
              {daysWords(r)} {r.reason ? <span className="text-soft">{r.reason}</span> : null}
            </span>
            {may ? <Remove range={r} what={what} action={remove} /> : null}
          </li>
        ))}
      </ul>
      {may ? <Add what={what} of={of} add={add} /> : null}
    </div>
  );
}

function Add({ what, of, add }: Pick<Props, 'what' | 'of' | 'add'>) {
  const { form, error, on, busy, data } = useActionForm(add);
  return (
    <>
      <details>
        <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">Add {what}</summary>
        <ActionForm {...form} className="mt-2 grid grid-cols-1 items-start gap-3 sm:grid-cols-2">
          <FormErrors errors={error('')} />
          <Hidden of={of} />
          <Field label="First day" {...on('from')} type="date" />
          <Field label="Last day" {...on('to')} type="date" />
          <div className="sm:col-span-2">
            <Field label="Why" {...on('reason')} autoComplete="off" />
          </div>
          <Button type="submit" disabled={busy} className="justify-self-start">
            Add
          </Button>
        </ActionForm>
      </details>
      <BookedOnThem found={data} />
    </>
  );
}
