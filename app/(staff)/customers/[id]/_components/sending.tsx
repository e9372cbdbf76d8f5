'use client';

import { ActionForm } from '@/app/_ui/forms/action-form';
import { Check } from '@/app/_ui/fields/check';
import { FormErrors } from '@/app/_ui/fields/field';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { saveSending } from '../../actions';

type Props = { id: string; reports: boolean; quarters: boolean };

/** What goes out to this customer without a look, as the owner has it. */
export function SendingForm({ id, reports, quarters }: Props) {
  const { form, error, busy, saved } = useActionForm(saveSending);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <Hidden of={{ id }} />
      <Check name="sendsReports" defaultChecked={reports} label="The report of each visit" hint="Half an hour after the visit is closed." />
      <Check
        name="sendsQuarters"
        defaultChecked={quarters}
        label="The summary of each quarter"
        hint="Two days after the quarter is over, once, where there was a visit."
      />
      <SaveRow busy={busy} label="Save" look="plain" saved={saved} />
    </ActionForm>
  );
}
