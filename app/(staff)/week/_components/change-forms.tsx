'use client';

import { Button } from '../../../_ui/button';
import { Field, FormErrors } from '../../../_ui/field';
import { Sheet } from '../../../_ui/sheet';
import { useActionForm } from '../../../_ui/use-action-form';
import { cancel, move } from '../actions';
import { SlotFields } from './slot-fields';

type Props = { visitId: string; version: number };
type MoveProps = Props & {
  technicians: { value: string; label: string }[];
  defaults: { technicianId: string; date: string; from: string; minutes: string };
};

export function MoveForm({ visitId, version, technicians, defaults }: MoveProps) {
  const { form, error, busy } = useActionForm(move);
  return (
    <Sheet title="Move">
      <form {...form} className="flex flex-col gap-4">
        <input type="hidden" name="visitId" value={visitId} />
        <input type="hidden" name="version" value={version} />
        <FormErrors errors={error('')} />
        <SlotFields technicians={technicians} defaults={defaults} error={error} />
        <Field label="Why it moves" name="reason" error={error('reason')} required />
        <Button type="submit" look="primary" className="self-start" disabled={busy}>
          {busy ? 'Moving …' : 'Move the visit'}
        </Button>
      </form>
    </Sheet>
  );
}

export function CancelForm({ visitId, version }: Props) {
  const { form, error, busy } = useActionForm(cancel);
  return (
    <Sheet title="Cancel">
      <form {...form} className="flex flex-col gap-4">
        <input type="hidden" name="visitId" value={visitId} />
        <input type="hidden" name="version" value={version} />
        <FormErrors errors={error('')} />
        <Field
          label="Why it is cancelled"
          id="f-cancel-reason"
          name="reason"
          error={error('reason')}
          hint="Its tasks stay due and can be booked again."
          required
        />
        <Button type="submit" look="danger" className="self-start" disabled={busy}>
          {busy ? 'Cancelling …' : 'Cancel the visit'}
        </Button>
      </form>
    </Sheet>
  );
}

type AtOnce = Props & { to: MoveProps['defaults']; reason: string; anyway?: 'on'; label: string; look?: 'primary' };

/** A move that asks for nothing more: time and reason are known. */
function MoveAtOnce({ visitId, version, to, reason, anyway, label, look }: AtOnce) {
  const { form, error, busy } = useActionForm(move);
  return (
    <form {...form} className="flex flex-wrap items-center gap-3">
      {Object.entries({ visitId, version, ...to, reason, ...(anyway ? { anyway } : {}) }).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Button type="submit" look={look} disabled={busy}>
        {busy ? 'Moving …' : label}
      </Button>
      <FormErrors errors={['', 'from', 'technicianId', 'minutes', 'anyway'].flatMap((name) => error(name) ?? [])} />
    </form>
  );
}

type Known = Props & { to: MoveProps['defaults'] };

/** Undoes the last move, in one press. */
export const MoveBack = ({ words, ...rest }: Known & { words: string }) => (
  <MoveAtOnce {...rest} reason="Moved back" anyway="on" label={`Move back to ${words}`} />
);

/** Moves to the time the kitchen asked for, in one press. */
export const MoveThere = (props: Known) => <MoveAtOnce {...props} reason="Asked for by the customer" label="Move there" look="primary" />;
