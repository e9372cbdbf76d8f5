'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { NewPasswordField } from '@/app/_ui/fields/new-password-field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { givePassword, resetStep, sendLink, switchPerson } from '../actions';

export function PasswordForm({ userId, name }: { userId: string; name: string }) {
  const { form, error, busy, saved } = useActionForm(givePassword);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <Hidden of={{ id: userId }} />
      <NewPasswordField error={error('password')} />
      <SaveRow busy={busy} label="Set the password" look="plain" saved={saved} said={<>Set. {name} is signed out everywhere.</>} />
    </ActionForm>
  );
}

export function LinkForm({ userId, email }: { userId: string; email: string }) {
  const { form, error, busy, saved } = useActionForm(sendLink);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <Hidden of={{ id: userId }} />
      <SaveRow
        busy={busy}
        label="Send a link to choose one"
        look="plain"
        saved={saved}
        said={<>In the outbox, to {email}. It opens once, within seven days.</>}
      />
    </ActionForm>
  );
}

export function StepForm({ userId, name }: { userId: string; name: string }) {
  const { form, error, busy } = useActionForm(resetStep);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <p className="text-soft">
        {name} signs in with a second step. Telephone and spare codes lost? Be sure that it is {name} who asks.
      </p>
      <Hidden of={{ id: userId }} />
      <Button look="danger" type="submit" disabled={busy} className="self-start">
        Turn the second step off
      </Button>
    </ActionForm>
  );
}

export function ActiveForm({ userId, version, active, name }: { userId: string; version: number; active: boolean; name: string }) {
  const { form, error, busy } = useActionForm(switchPerson);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <p className="text-soft">
        {active
          ? `Switched off, ${name} can no longer sign in and is not offered for visits. What was done stays on file.`
          : `${name} is switched off: no sign-in, no visits.`}
      </p>
      <FormErrors errors={error('')} />
      <Hidden of={{ id: userId, version, active: active ? 'no' : 'yes' }} />
      <Button look={active ? 'danger' : 'plain'} type="submit" disabled={busy} className="self-start">
        {active ? `Switch ${name} off` : `Switch ${name} on again`}
      </Button>
    </ActionForm>
  );
}
