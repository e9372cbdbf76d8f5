'use client';

import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { sendIt } from '../actions';

type Props = { customerId: string; quarter: string; email: string; language: Language };

export function SendQuarterForm({ customerId, quarter, email, language }: Props) {
  const { form, error, busy, saved } = useActionForm(sendIt);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('') ?? error('quarter')} />
      <input type="hidden" name="customerId" value={customerId} />
      <input type="hidden" name="quarter" value={quarter} />
      <Field label="To" name="toEmail" type="email" defaultValue={email} error={error('toEmail')} autoComplete="off" required />
      <Select
        label="In"
        name="language"
        options={LANGUAGES.map((value) => ({ value, label: LANGUAGE_LABEL[value] }))}
        defaultValue={language}
        error={error('language')}
      />
      <div className="flex items-center gap-3">
        <Button look="primary" type="submit" disabled={busy}>
          Send the summary
        </Button>
        <Saved when={saved}>In the outbox.</Saved>
      </div>
      <p className="text-sm text-soft">The letter has a link that opens for half a year. Whoever has it can read the summary.</p>
    </ActionForm>
  );
}
