'use client';

import Link from 'next/link';
import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { sendIt } from '../actions';

export function SendForm({ visitId, email, language }: { visitId: string; email: string; language: Language }) {
  const { form, error, busy, saved } = useActionForm(sendIt);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <input type="hidden" name="visitId" value={visitId} />
      <input type="hidden" name="language" value={language} />
      <p>
        In {LANGUAGE_LABEL[language]}.{' '}
        {LANGUAGES.filter((l) => l !== language).map((l) => (
          <Link key={l} href={`?language=${l}`}>
            Show it in {LANGUAGE_LABEL[l]}
          </Link>
        ))}
      </p>
      <Field label="To" name="toEmail" type="email" defaultValue={email} error={error('toEmail')} autoComplete="off" required />
      <div className="flex items-center gap-3">
        <Button look="primary" type="submit" disabled={busy}>
          Send the report
        </Button>
        <Saved when={saved}>In the outbox.</Saved>
      </div>
      <p className="text-sm text-soft">The letter has a link that opens for half a year. Whoever has it can read the report.</p>
    </ActionForm>
  );
}
