'use client';

import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { sendIt } from '../actions';

type Props = { customerId: string; quarter: string; email: string; language: Language };

export function SendQuarterForm({ customerId, quarter, email, language }: Props) {
  const { form, error, on, busy, saved } = useActionForm(sendIt);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('') ?? error('quarter')} />
      <Hidden of={{ customerId, quarter }} />
      <Field label="To" {...on('toEmail')} type="email" defaultValue={email} autoComplete="off" required />
      <Select
        label="In"
        {...on('language')}
        options={LANGUAGES.map((value) => ({ value, label: LANGUAGE_LABEL[value] }))}
        defaultValue={language}
      />
      <SaveRow busy={busy} label="Send the summary" saved={saved} said="In the outbox." />
      <p className="text-sm text-soft">The letter has a link that opens for half a year. Whoever has it can read the summary.</p>
    </ActionForm>
  );
}
