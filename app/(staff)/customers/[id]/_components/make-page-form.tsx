'use client';

import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Check } from '@/app/_ui/fields/check';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { makeTheirPage } from '../../actions';

type Props = {
  customer: { id: string; email: string; contactName: string; language: Language };
  kitchens: { id: string; name: string }[];
};

/** A link to their page, for one person. It is shown once, here, and sent where there is an address. */
export function MakePageForm({ customer, kitchens }: Props) {
  const { form, error, on, busy, data } = useActionForm(makeTheirPage);
  return (
    <ActionForm {...form} className="mt-4 flex max-w-2xl flex-col gap-4">
      <h3>Make a link</h3>
      <FormErrors errors={error('')} />
      <Hidden of={{ customerId: customer.id }} />
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Field label="For whom" {...on('holder')} defaultValue={customer.contactName} autoComplete="off" />
        <Select label="Shows" {...on('kitchenId')} blank="All kitchens" options={kitchens.map((k) => ({ value: k.id, label: k.name }))} />
        <Field
          label="Send it to"
          {...on('toEmail')}
          type="email"
          defaultValue={customer.email}
          hint="Left empty, hand it over yourself."
          autoComplete="off"
        />
        <Select
          label="In"
          {...on('language')}
          options={LANGUAGES.map((value) => ({ value, label: LANGUAGE_LABEL[value] }))}
          defaultValue={customer.language}
        />
      </div>
      <Check name="answersQuotes" label="May accept and decline quotes" />
      <SaveRow busy={busy} label="Make the link">
        <span className="text-sm text-soft">Good for a year, or until it is taken back.</span>
      </SaveRow>
      <div aria-live="polite">
        {data ? (
          <p className="rounded-md border border-edge bg-sunk p-3">
            {data.mailed ? 'In the outbox, with its letter. ' : ''}
            The link, shown this once: <code className="break-all">{data.link}</code>
          </p>
        ) : null}
      </div>
    </ActionForm>
  );
}
