'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { sendQuote } from '../quote/actions';

/** Sends the quote; its link stands here until the page is left, and nowhere after. */
export function SendForm({ quoteId, email }: { quoteId: string; email: string }) {
  const { form, error, on, busy, data } = useActionForm(sendQuote);
  if (data)
    return (
      <p role="status" className="mt-2 break-words">
        {data.mailed ? 'In the outbox. ' : 'Not mailed. '}
        Its link, shown this once: <a href={data.link}>{data.link}</a>
      </p>
    );
  return (
    <ActionForm {...form} className="mt-2 flex flex-wrap items-end gap-3">
      <FormErrors errors={error('') ?? error('validUntil')} />
      <Hidden of={{ quoteId }} />
      <div className="min-w-60 flex-1">
        <Field label="Send to" {...on('to')} type="email" defaultValue={email} hint="Empty: only make the link." autoComplete="off" />
      </div>
      <Button type="submit" look="primary" disabled={busy} className="mb-6">
        Send the quote
      </Button>
    </ActionForm>
  );
}
