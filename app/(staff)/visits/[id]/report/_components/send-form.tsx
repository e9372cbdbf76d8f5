'use client';

import Link from 'next/link';
import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { sendIt } from '../actions';

export function SendForm({ visitId, email, language }: { visitId: string; email: string; language: Language }) {
  const { form, error, on, busy, saved } = useActionForm(sendIt);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Hidden of={{ visitId, language }} />
      <p>
        In {LANGUAGE_LABEL[language]}.{' '}
        {LANGUAGES.filter((l) => l !== language).map((l) => (
          <Link key={l} href={`?language=${l}`}>
            Show it in {LANGUAGE_LABEL[l]}
          </Link>
        ))}
      </p>
      <Field label="To" {...on('toEmail')} type="email" defaultValue={email} autoComplete="off" required />
      <SaveRow busy={busy} label="Send the report" saved={saved} said="In the outbox." />
      <p className="text-sm text-soft">The letter has a link that opens for half a year. Whoever has it can read the report.</p>
    </ActionForm>
  );
}
