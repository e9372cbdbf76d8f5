'use client';

import { JOB_URGENCIES, JOB_URGENCY_LABEL } from '@/lib/core/jobs/states';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Group } from '@/app/_ui/fields/group';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { WhatIsWrong } from '../../_components/what-is-wrong';
import { takeCall } from '../../actions';

type Props = { kitchenId: string; units: { id: string; name: string; tag: string }[]; caller: { name: string; phone: string } };

/** The call in one form. What cannot wait goes on to who can be there when. */
export function CallForm({ kitchenId, units, caller }: Props) {
  const { form, error, on, busy } = useActionForm(takeCall);
  return (
    <Sheet title="The call">
      <ActionForm {...form} className="flex flex-col gap-4">
        <FormErrors errors={error('') ?? error('kitchenId')} />
        <Hidden of={{ kitchenId }} />
        <WhatIsWrong {...on('what')} autoFocus />
        <Group legend="How soon" error={error('urgency')}>
          <div className="mt-1 flex flex-col">
            {JOB_URGENCIES.map((u) => (
              <label key={u} className="flex min-h-9 items-center gap-2">
                <input type="radio" name="urgency" value={u} className="size-5" /> {JOB_URGENCY_LABEL[u]}
              </label>
            ))}
          </div>
        </Group>
        <Group legend="Units" hint="None chosen: nobody knows yet which one." error={error('unitIds')}>
          <div
            className="mt-1 max-h-60 overflow-y-auto rounded-md border border-line px-2"
            tabIndex={0}
            role="group"
            aria-label="Units of the kitchen"
          >
            {units.map((u) => (
              <label key={u.id} className="flex min-h-9 items-center gap-2">
                <input type="checkbox" name="unitIds" value={u.id} className="size-5 shrink-0" /> {u.name}{' '}
                <span className="text-sm text-soft">{u.tag}</span>
              </label>
            ))}
          </div>
        </Group>
        <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
          <Field label="Who rings" {...on('callerName')} defaultValue={caller.name} autoComplete="off" />
          <Field label="Ring back" {...on('callerPhone')} type="tel" defaultValue={caller.phone} autoComplete="off" />
        </div>
        <SaveRow busy={busy} label="Take the call" sending="Filing …">
          <ButtonLink href="/jobs" look="quiet">
            Back without saving
          </ButtonLink>
        </SaveRow>
      </ActionForm>
    </Sheet>
  );
}
