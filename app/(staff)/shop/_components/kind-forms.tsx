'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Check } from '@/app/_ui/fields/check';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { State } from '@/app/_ui/states/state';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import type { On } from '@/app/_ui/forms/use-sent-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { addKind, saveKind } from '../actions';

export type Kind = {
  key: string;
  label: string;
  minutes: number;
  lowSide: boolean;
  defaultWeeks: number;
  minWeeks: number;
  maxWeeks: number;
  active: boolean;
};

function KindFields({ kind: k, id, on }: { kind?: Kind; id: string; on: On }) {
  const number = { inputMode: 'numeric', autoComplete: 'off' } as const;
  return (
    <>
      <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-5">
        <div className="sm:col-span-5">
          <Field id={`${id}-label`} label="Name" {...on('label')} defaultValue={k?.label} autoComplete="off" />
        </div>
        <Field id={`${id}-minutes`} label="Takes" unit="min" {...on('minutes')} defaultValue={k?.minutes} {...number} />
        <Field id={`${id}-weeks`} label="Usually every" unit="weeks" {...on('defaultWeeks')} defaultValue={k?.defaultWeeks} {...number} />
        <Field id={`${id}-min`} label="At soonest" unit="weeks" {...on('minWeeks')} defaultValue={k?.minWeeks ?? 1} {...number} />
        <Field id={`${id}-max`} label="At latest" unit="weeks" {...on('maxWeeks')} defaultValue={k?.maxWeeks ?? 52} {...number} />
      </div>
      <Check
        name="lowSide"
        defaultChecked={k?.lowSide}
        label="Looks at the low side"
        hint="Rides along with every coil cleaning of the unit."
      />
    </>
  );
}

export function KindRow({ kind: k }: { kind: Kind }) {
  const { form, error, on, busy, saved } = useActionForm(saveKind);
  return (
    <details className="border-b border-line py-2">
      <summary className="flex min-h-9 flex-wrap items-center gap-x-6">
        <span className="font-bold sm:w-60">{k.label}</span>
        <span className="text-soft">
          {k.minutes} min, usually every {k.defaultWeeks} weeks, between {k.minWeeks} and {k.maxWeeks}
          {k.lowSide ? ', low side' : ''}
        </span>
        {k.active ? null : (
          <State shape="off" tone="soft">
            not offered
          </State>
        )}
        <span className="ml-auto font-bold text-cold underline underline-offset-4">Change</span>
      </summary>
      <ActionForm {...form} className="my-3 flex max-w-3xl flex-col gap-4 rounded-md border border-line bg-paper p-4">
        <FormErrors errors={error('')} />
        <Hidden of={{ key: k.key }} />
        <KindFields kind={k} id={k.key} on={on} />
        <Check name="active" defaultChecked={k.active} label="Offered for units" hint="Units keep the tasks they have either way." />
        <SaveRow busy={busy} label="Save kind" look="plain" saved={saved} />
      </ActionForm>
    </details>
  );
}

export function NewKindForm({ count }: { count: number }) {
  const { form, error, on, busy } = useActionForm(addKind);
  return (
    <details className="mt-3">
      <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">Add a kind of task</summary>
      <ActionForm key={count} {...form} className="mt-2 flex max-w-3xl flex-col gap-4 rounded-md border border-line bg-paper p-4">
        <FormErrors errors={error('')} />
        <KindFields id="new-kind" on={on} />
        <Button look="primary" type="submit" disabled={busy} className="self-start">
          Add kind
        </Button>
      </ActionForm>
    </details>
  );
}
