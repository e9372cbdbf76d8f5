'use client';

import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Button } from '@/app/_ui/buttons/button';
import { Check } from '@/app/_ui/fields/check';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { makeTheirPage } from '../../actions';

type Props = {
  customer: { id: string; email: string; contactName: string; language: Language };
  kitchens: { id: string; name: string }[];
};

/** A link to their page, for one person. It is shown once, here, and sent where there is an address. */
export function MakePageForm({ customer, kitchens }: Props) {
  const { form, error, busy, data } = useActionForm(makeTheirPage);
  return (
    <ActionForm {...form} className="mt-4 flex max-w-2xl flex-col gap-4">
      <h3>Make a link</h3>
      <FormErrors errors={error('')} />
      <input type="hidden" name="customerId" value={customer.id} />
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Field label="For whom" name="holder" defaultValue={customer.contactName} error={error('holder')} autoComplete="off" />
        <Select
          label="Shows"
          name="kitchenId"
          blank="All kitchens"
          options={kitchens.map((k) => ({ value: k.id, label: k.name }))}
          error={error('kitchenId')}
        />
        <Field
          label="Send it to"
          name="toEmail"
          type="email"
          defaultValue={customer.email}
          error={error('toEmail')}
          hint="Left empty, hand it over yourself."
          autoComplete="off"
        />
        <Select
          label="In"
          name="language"
          options={LANGUAGES.map((value) => ({ value, label: LANGUAGE_LABEL[value] }))}
          defaultValue={customer.language}
          error={error('language')}
        />
      </div>
      <Check name="answersQuotes" label="May accept and decline quotes" />
      <div className="flex flex-wrap items-center gap-3">
        <Button look="primary" type="submit" disabled={busy}>
          Make the link
        </Button>
        <span className="text-sm text-soft">Good for a year, or until it is taken back.</span>
      </div>
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
