'use client';

import { useState } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { cancel, give, move, restore } from '../actions';
import { Anyway, SlotFields } from './slot-fields';

type Props = { visitId: string; version: number };
type MoveProps = Props & {
  technicians: { value: string; label: string }[];
  defaults: { technicianId: string; date: string; from: string; minutes: string };
};

export type FreeTime = { technicianId: string; date: string; from: string; label: string };

export function MoveForm({ visitId, version, technicians, defaults, free = [] }: MoveProps & { free?: FreeTime[] }) {
  const { form, error, on, busy } = useActionForm(move);
  const [at, setAt] = useState(defaults);
  return (
    <Sheet title="Move">
      {free.length > 0 ? (
        <div className="mb-4">
          <p className="mb-1 text-sm text-soft">Free, drives counted in; one fills the form:</p>
          <div className="flex flex-wrap gap-2">
            {free.map((f) => (
              <Button key={f.label} onClick={() => setAt({ ...defaults, technicianId: f.technicianId, date: f.date, from: f.from })}>
                {f.label}
              </Button>
            ))}
          </div>
        </div>
      ) : null}
      <ActionForm {...form} className="flex flex-col gap-4">
        <Hidden of={{ visitId, version }} />
        <FormErrors errors={error('')} />
        <SlotFields key={`${at.technicianId} ${at.date} ${at.from}`} technicians={technicians} defaults={at} on={on} />
        <Field label="Why it moves" {...on('reason')} required />
        <Button type="submit" look="primary" className="self-start" disabled={busy}>
          {busy ? 'Moving …' : 'Move the visit'}
        </Button>
      </ActionForm>
    </Sheet>
  );
}

/** For a visit under way: only who has it changes. */
export function GiveForm({ visitId, version, technicians }: Props & Pick<MoveProps, 'technicians'>) {
  const { form, error, on, busy } = useActionForm(give);
  return (
    <Sheet title="Give to someone else">
      <ActionForm {...form} className="flex flex-col gap-4">
        <Hidden of={{ visitId, version }} />
        <FormErrors errors={error('')} />
        <Select label="Technician" {...on('technicianId')} options={technicians} blank="Choose" required />
        <Field
          label="Why someone else has it"
          id="f-give-reason"
          {...on('reason')}
          hint="Its time stays, and so does what is already written."
          required
        />
        <Button type="submit" look="primary" className="self-start" disabled={busy}>
          {busy ? 'Giving …' : 'Give the visit'}
        </Button>
      </ActionForm>
    </Sheet>
  );
}

/** `kitchenHears`: the time is not over, so the kitchen is written to. */
export function CancelForm({ visitId, version, started, kitchenHears }: Props & { started: boolean; kitchenHears: boolean }) {
  const { form, error, on, busy } = useActionForm(cancel);
  return (
    <Sheet title="Cancel">
      <ActionForm {...form} className="flex flex-col gap-4">
        <Hidden of={{ visitId, version }} />
        <FormErrors errors={error('')} />
        <Field
          label="Why it is cancelled"
          id="f-cancel-reason"
          {...on('reason')}
          hint={[
            started ? 'What is already written stays on file.' : '',
            'Its tasks stay due and can be booked again.',
            kitchenHears ? 'The kitchen reads the reason as you write it.' : 'Its time is over, so the kitchen is not written to.',
          ].join(' ')}
          required
        />
        <Button type="submit" look="danger" className="self-start" disabled={busy}>
          {busy ? 'Cancelling …' : 'Cancel the visit'}
        </Button>
      </ActionForm>
    </Sheet>
  );
}

/** Undoes a cancelling. */
export function RestoreForm({ visitId, version }: Props) {
  const { form, error, busy } = useActionForm(restore);
  return (
    <ActionForm {...form} className="flex flex-wrap items-center gap-3">
      <Hidden of={{ visitId, version }} />
      <Button type="submit" look="primary" disabled={busy}>
        {busy ? 'Booking …' : 'Book it again as it was'}
      </Button>
      <FormErrors errors={error('')} />
    </ActionForm>
  );
}

type AtOnce = Props & { to: MoveProps['defaults']; reason: string; back?: boolean; label: string; look?: 'primary' };

/** A move that asks for nothing more: time and reason are known. */
function MoveAtOnce({ visitId, version, to, reason, back, label, look }: AtOnce) {
  const { form, error, busy } = useActionForm(move);
  return (
    <ActionForm {...form} className="flex flex-wrap items-center gap-3">
      {Object.entries({ visitId, version, ...to, reason, ...(back ? { back: 'on', anyway: 'on' } : {}) }).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Button type="submit" look={look} disabled={busy}>
        {busy ? 'Moving …' : label}
      </Button>
      <FormErrors errors={['', 'from', 'technicianId', 'minutes', ...(back ? ['anyway'] : [])].flatMap((name) => error(name) ?? [])} />
      {back ? null : <Anyway messages={error('anyway')} />}
    </ActionForm>
  );
}

type MoveTo = Props & { to: MoveProps['defaults'] };

/** Undoes the last move, in one press. */
export const MoveBack = ({ when, ...rest }: MoveTo & { when: string }) => (
  <MoveAtOnce {...rest} reason="Moved back" back label={`Move back to ${when}`} />
);

/** Moves to the time the kitchen asked for, in one press. */
export const MoveThere = (props: MoveTo) => <MoveAtOnce {...props} reason="Asked for by the customer" label="Move there" look="primary" />;
