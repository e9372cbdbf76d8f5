'use client';

import { getSession, signIn } from 'next-auth/react';
import { useRouter } from 'next/navigation';
import { useState, useSyncExternalStore, type FormEvent } from 'react';
import { handTo } from '@/lib/tablet/people';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { NewPasswordField } from '@/app/_ui/fields/new-password-field';

const MESSAGE: Record<string, string> = {
  not_allowed: 'That e-mail and password do not match.',
  too_many: 'Too many tries. Wait a quarter of an hour, or choose a new password under “Forgotten password”.',
  code_wanted: '',
  code_wrong: 'That code does not fit. Wait for the next one, or use a spare code.',
  fresh_wanted: 'Your password is right, but it is too easy to guess. Choose a new one below, and sign in with it from now on.',
  fresh_wrong: 'That new password is too easy to guess too. Choose another.',
};

const never = () => () => {};
/** Whether the page's script has taken over. Sent before, the form would put the password into the address. */
const useAwake = () =>
  useSyncExternalStore(
    never,
    () => true,
    () => false,
  );

/** Goes on to `to`, an address in this app. */
export function SignInForm({ to }: { to: string }) {
  const router = useRouter();
  const awake = useAwake();
  const [error, setError] = useState('');
  const [busy, setBusy] = useState(false);
  const [second, setSecond] = useState(false);
  const [renewing, setRenewing] = useState(false);

  async function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    setBusy(true);
    setError('');
    const result = await signIn('credentials', {
      email: form.get('email'),
      password: form.get('password'),
      code: form.get('code') ?? '',
      fresh: form.get('fresh') ?? '',
      redirect: false,
    }).catch(() => undefined);
    if (result?.ok) {
      // Told apart before the round opens: on a bad line it would show, and take entries into, the work of whoever was here before.
      const session = await getSession().catch(() => null);
      const userId = (session?.user as { id?: string } | undefined)?.id;
      if (userId) {
        await handTo(userId);
        return router.replace(to);
      }
    }
    setBusy(false);
    if (result?.error === 'code_wanted') setSecond(true);
    if (result?.error === 'fresh_wanted') setRenewing(true);
    setError(MESSAGE[result?.error ?? ''] ?? 'The office could not be reached. Check the connection and try again.');
  }

  return (
    <form method="post" onSubmit={submit} className="flex flex-col gap-4">
      <FormErrors errors={error ? [error] : null} />
      <Field label="E-mail" name="email" type="email" autoComplete="username" required />
      <Field label="Password" name="password" type="password" autoComplete="current-password" required />
      {renewing ? <NewPasswordField name="fresh" /> : null}
      {second ? (
        <Field
          label="Code of the authenticator"
          name="code"
          inputMode="numeric"
          autoComplete="one-time-code"
          hint="Or one of your spare codes."
          required
          autoFocus
        />
      ) : null}
      <Button look="primary" size="touch" type="submit" disabled={busy || !awake}>
        {busy ? 'Signing in …' : 'Sign in'}
      </Button>
    </form>
  );
}
