'use client';

import { useActionState } from 'react';
import { Button } from '../../../_ui/button';
import { Field, FormErrors } from '../../../_ui/field';
import { Sheet } from '../../../_ui/sheet';
import { cancel, move } from '../actions';
import { SlotFields } from './slot-fields';

type Props = { visitId: string; version: number };
type MoveProps = Props & { technicians: { value: string; label: string }[]; defaults: { technicianId: string; date: string; from: string; minutes: string } };

export function MoveForm({ visitId, version, technicians, defaults }: MoveProps) {
  const [state, action, busy] = useActionState(move, undefined);
  const errors = state?.reply.error ?? {};
  const typed = (state?.reply.initialValue ?? {}) as Partial<MoveProps['defaults']> & { reason?: string };
  return (
    <Sheet title="Move">
      <form action={action} className="flex flex-col gap-4">
        <input type="hidden" name="visitId" value={visitId} />
        <input type="hidden" name="version" value={version} />
        <FormErrors errors={errors['']} />
        <SlotFields technicians={technicians} defaults={{ ...defaults, ...typed }} errors={errors} />
        <Field label="Why it moves" name="reason" defaultValue={typed.reason} error={errors.reason ?? undefined} required />
        <Button type="submit" look="primary" className="self-start" disabled={busy}>{busy ? 'Moving …' : 'Move the visit'}</Button>
      </form>
    </Sheet>
  );
}

export function CancelForm({ visitId, version }: Props) {
  const [state, action, busy] = useActionState(cancel, undefined);
  const errors = state?.reply.error ?? {};
  const typed = (state?.reply.initialValue ?? {}) as { reason?: string };
  return (
    <Sheet title="Cancel">
      <form action={action} className="flex flex-col gap-4">
        <input type="hidden" name="visitId" value={visitId} />
        <input type="hidden" name="version" value={version} />
        <FormErrors errors={errors['']} />
        <Field label="Why it is cancelled" id="f-cancel-reason" name="reason" defaultValue={typed.reason} error={errors.reason ?? undefined} hint="Its tasks stay due and can be booked again." required />
        <Button type="submit" look="danger" className="self-start" disabled={busy}>{busy ? 'Cancelling …' : 'Cancel the visit'}</Button>
      </form>
    </Sheet>
  );
}

/** Undoes the last move, in one press. */
export function MoveBack({ visitId, version, to, words }: Props & { to: MoveProps['defaults']; words: string }) {
  const [state, action, busy] = useActionState(move, undefined);
  const errors = state?.reply.error ?? {};
  return (
    <form action={action} className="flex flex-wrap items-center gap-3">
      {Object.entries({ visitId, version, ...to, reason: 'Moved back', anyway: 'on' }).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Button type="submit" disabled={busy}>Move back to {words}</Button>
      <FormErrors errors={Object.values(errors).flatMap((e) => e ?? [])} />
    </form>
  );
}
