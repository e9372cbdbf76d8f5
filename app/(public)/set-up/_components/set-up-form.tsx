'use client';

import { signIn } from 'next-auth/react';
import { useRouter } from 'next/navigation';
import { useEffect, useRef } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { NewPasswordField } from '@/app/_ui/fields/new-password-field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { ZoneList } from '@/app/_ui/fields/zone-list';
import { setUp } from '../actions';

export function SetUpForm() {
  const { form, error, on, busy, data } = useActionForm(setUp);
  const router = useRouter();
  const zone = useRef<HTMLInputElement>(null);

  // The browser knows where the shop most likely is.
  useEffect(() => {
    // eslint-disable-next-line no-restricted-syntax -- writes nothing: where this browser stands
    if (zone.current && !zone.current.value) zone.current.value = Intl.DateTimeFormat().resolvedOptions().timeZone;
  }, []);

  useEffect(() => {
    if (!data) return;
    const password = new FormData(form.ref.current ?? undefined).get('password');
    void signIn('credentials', { email: data.email, password, redirect: false }).then(() => router.replace('/'));
  }, [data, form.ref, router]);

  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Field
        label="Set-up code"
        {...on('code')}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        hint="Printed where Rimebook was started, so that only whoever runs it can set it up."
      />
      <Field label="Name of the shop" {...on('shop')} autoComplete="organization" />
      <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2">
        <Field
          label="Time zone"
          {...on('timeZone')}
          list="zones"
          ref={zone}
          autoComplete="off"
          hint="Like America/Chicago, or its city alone."
        />
        <Field label="Currency" {...on('currency')} defaultValue="USD" autoComplete="off" hint="Three letters." />
      </div>
      <ZoneList id="zones" />
      <Field label="Your name" {...on('name')} autoComplete="name" />
      <Field
        label="Your e-mail"
        {...on('email')}
        type="email"
        autoComplete="username"
        hint="You sign in with it. You will be the owner and can add the others."
      />
      <NewPasswordField label="Your password" error={error('password')} />
      <Button look="primary" size="touch" type="submit" disabled={busy || data !== undefined}>
        {busy || data ? 'Setting up …' : 'Set up the shop'}
      </Button>
    </ActionForm>
  );
}
