'use client';

import { useEffect } from 'react';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { dropStep, goOnWithout, startStep } from '../../actions';

type Props = { secret: string; picture: { path: string; size: number }; to: string | null };

/** `to`: where whoever was sent here was going. */
export function SecondStepForm({ secret, picture, to }: Props) {
  const { form, error, on, busy, data } = useActionForm(startStep);
  if (data) return <SpareCodes codes={data} to={to} />;
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <p>Read this with an authenticator (any that does codes by time), then give the code that it shows.</p>
      <svg viewBox={`0 0 ${picture.size} ${picture.size}`} className="size-52 bg-white" role="img" aria-label="Code for the authenticator">
        <path d={picture.path} fill="#000" />
      </svg>
      <p>
        Can’t read it? Type this secret: <code className="break-all">{secret.replace(/(.{4})/g, '$1 ').trim()}</code>
      </p>
      <Hidden of={{ secret }} />
      <Field label="Code" {...on('code')} inputMode="numeric" autoComplete="one-time-code" required />
      <Button look="primary" type="submit" disabled={busy} className="self-start">
        Turn it on
      </Button>
    </ActionForm>
  );
}

function SpareCodes({ codes, to }: { codes: string[]; to: string | null }) {
  return (
    <div className="flex flex-col gap-3" role="status">
      <p className="font-bold">The second step is on. Write these down and keep them away from the telephone.</p>
      <p className="text-soft">Each stands in for a code once, should the telephone be lost. They are shown now and never again.</p>
      <ul className="grid grid-cols-2 gap-2 font-mono text-lg sm:grid-cols-3">
        {codes.map((code) => (
          <li key={code}>{code}</li>
        ))}
      </ul>
      {to === null ? null : (
        <ButtonLink href={to} look="primary" className="self-start">
          I have them, go on
        </ButtonLink>
      )}
    </div>
  );
}

export function DropForm({ spare }: { spare: number }) {
  const { form, error, busy } = useActionForm(dropStep);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <p>
        It is on, with {spare} spare {spare === 1 ? 'code' : 'codes'} left. A new telephone, or no spare codes? Turn it off and on again.
      </p>
      <Button look="danger" type="submit" disabled={busy} className="self-start">
        Turn the second step off
      </Button>
    </ActionForm>
  );
}

export function GoOnWithout({ to }: { to: string }) {
  const { form, error, busy, saved } = useActionForm(goOnWithout);
  useEffect(() => {
    if (saved) window.location.assign(to);
  }, [saved, to]);
  return (
    <ActionForm {...form} className="mt-6 flex max-w-2xl flex-col gap-3">
      <FormErrors errors={error('')} />
      <p className="text-soft">
        No telephone at hand? Go on without. No owner is asked from then on, until you turn it on again under People.
      </p>
      <Button type="submit" disabled={busy || saved} className="self-start">
        Don’t ask owners
      </Button>
    </ActionForm>
  );
}
