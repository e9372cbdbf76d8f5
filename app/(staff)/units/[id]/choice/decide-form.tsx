'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { decideWay, judgeAgain } from './actions';

export function DecideForm({
  unitId,
  typed,
  ways,
}: {
  unitId: string;
  typed: Record<string, string>;
  ways: { value: string; label: string }[];
}) {
  const { form, error, on, busy, saved } = useActionForm(decideWay);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Hidden of={{ unitId }} />
      {Object.entries(typed).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Select label="What is decided" {...on('way')} blank="Choose" options={ways} />
      <TextArea label="Why" {...on('reason')} />
      <SaveRow busy={busy} label="Keep the decision" saved={saved} said="Kept; it comes up again in a year." />
    </ActionForm>
  );
}

export function AgainForm({ id }: { id: string }) {
  const { form, error, on, busy } = useActionForm(judgeAgain);
  return (
    <ActionForm {...form} className="mt-2 flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <Hidden of={{ id }} />
      <TextArea id={`again-${id}`} label="A year on: was it right?" {...on('note')} />
      <Button type="submit" disabled={busy} className="self-start">
        Keep what you think
      </Button>
    </ActionForm>
  );
}
