'use client';

import { Button } from '../buttons/button';
import { Field, FormErrors } from '../fields/field';
import { ActionForm } from './action-form';
import { Hidden } from './parts';
import { useActionForm, type FormAction } from './use-action-form';

type Props = { id: string; version: number; what: string; action: FormAction<never> };

/** Taking a record out of use, folded away until wanted. It asks for a reason. */
export function TakeOff({ id, version, what, action, consequence }: Props & { consequence: string }) {
  const { form, error, on, busy } = useActionForm(action);
  return (
    <details className="group">
      <summary className="inline-flex min-h-9 items-center font-bold text-alarm underline underline-offset-4">
        Take this {what} out of use
      </summary>
      <ActionForm {...form} className="mt-3 flex max-w-xl flex-col gap-3 rounded-md border border-line p-4">
        <p className="text-soft">{consequence}</p>
        <FormErrors errors={error('')} />
        <Hidden of={{ id, version }} />
        <Field label="Why" {...on('reason')} autoComplete="off" />
        <Button look="danger" type="submit" disabled={busy} className="self-start">
          {busy ? 'Taking it out …' : `Take ${what} out of use`}
        </Button>
      </ActionForm>
    </details>
  );
}

/** Says that a record is out of use, and brings it back. */
export function PutBack({ id, version, what, why, action, may }: Props & { why: string; may: boolean }) {
  const { form, error, busy } = useActionForm(action);
  return (
    <ActionForm {...form} className="mb-6 flex flex-col gap-3 rounded-md border-2 border-edge bg-sunk p-4">
      <FormErrors errors={error('')} />
      <p>
        <span className="font-bold">This {what} is out of use.</span> {why}
      </p>
      {may ? (
        <>
          <Hidden of={{ id, version }} />
          <Button type="submit" disabled={busy} className="self-start">
            {busy ? 'Putting it back …' : 'Put it back in use'}
          </Button>
        </>
      ) : null}
    </ActionForm>
  );
}
