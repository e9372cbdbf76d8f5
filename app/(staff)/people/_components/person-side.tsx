'use client';

import { addDays, type LocalDate } from '@/lib/core/calendar';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { NewPasswordField } from '@/app/_ui/fields/new-password-field';
import { Saved } from '@/app/_ui/feedback/saved';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { dayWords } from '@/lib/core/calendar/when';
import { BookedOnThem } from '../../_components/open-visits';
import { addDaysOff, givePassword, removeDaysOff, resetStep, sendLink, switchPerson } from '../actions';

export function PasswordForm({ userId, name }: { userId: string; name: string }) {
  const { form, error, busy, saved } = useActionForm(givePassword);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <input type="hidden" name="id" value={userId} />
      <NewPasswordField error={error('password')} />
      <div className="flex items-center gap-3">
        <Button type="submit" disabled={busy}>
          Set the password
        </Button>
        <Saved when={saved}>Set. {name} is signed out everywhere.</Saved>
      </div>
    </ActionForm>
  );
}

export function LinkForm({ userId, email }: { userId: string; email: string }) {
  const { form, error, busy, saved } = useActionForm(sendLink);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <input type="hidden" name="id" value={userId} />
      <div className="flex flex-wrap items-center gap-3">
        <Button type="submit" disabled={busy}>
          Send a link to choose one
        </Button>
        <Saved when={saved}>In the outbox, to {email}. It opens once, within seven days.</Saved>
      </div>
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
      <input type="hidden" name="id" value={userId} />
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
      <input type="hidden" name="id" value={userId} />
      <input type="hidden" name="version" value={version} />
      <input type="hidden" name="active" value={active ? 'no' : 'yes'} />
      <Button look={active ? 'danger' : 'plain'} type="submit" disabled={busy} className="self-start">
        {active ? `Switch ${name} off` : `Switch ${name} on again`}
      </Button>
    </ActionForm>
  );
}

export type OffRange = { id: string; startsOn: LocalDate; endsOn: LocalDate; reason: string };

function RemoveOff({ range, words }: { range: OffRange; words: string }) {
  const { form, busy } = useActionForm(removeDaysOff);
  return (
    <ActionForm {...form}>
      <input type="hidden" name="id" value={range.id} />
      <Button look="quiet" type="submit" disabled={busy} aria-label={`Remove days off ${words}`}>
        Remove
      </Button>
    </ActionForm>
  );
}

export function DaysOff({ userId, ranges }: { userId: string; ranges: OffRange[] }) {
  const { form, error, busy, data } = useActionForm(addDaysOff);
  const words = (r: OffRange) =>
    addDays(r.endsOn, -1) === r.startsOn ? dayWords(r.startsOn) : `${dayWords(r.startsOn)} to ${dayWords(addDays(r.endsOn, -1))}`;
  return (
    <div className="flex flex-col gap-3">
      {ranges.length === 0 ? <p className="text-soft">No days off ahead.</p> : null}
      <ul>
        {ranges.map((r) => (
          <li key={r.id} className="flex flex-wrap items-center justify-between gap-2 border-b border-line">
            <span>
              {words(r)} {r.reason ? <span className="text-soft">{r.reason}</span> : null}
            </span>
            <RemoveOff range={r} words={words(r)} />
          </li>
        ))}
      </ul>
      <ActionForm {...form} className="grid grid-cols-1 items-start gap-3 sm:grid-cols-2">
        <FormErrors errors={error('')} />
        <input type="hidden" name="userId" value={userId} />
        <Field label="First day" name="from" type="date" error={error('from')} />
        <Field label="Last day" name="to" type="date" error={error('to')} />
        <div className="sm:col-span-2">
          <Field label="Why" name="reason" error={error('reason')} autoComplete="off" />
        </div>
        <Button type="submit" disabled={busy} className="justify-self-start">
          Add days off
        </Button>
      </ActionForm>
      <BookedOnThem found={data} />
    </div>
  );
}
