'use client';

import { JOB_URGENCIES, JOB_URGENCY_LABEL } from '@/lib/core/jobs/states';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { takeCall } from '../../actions';

type Props = { kitchenId: string; units: { id: string; name: string; tag: string }[]; caller: { name: string; phone: string } };

/** The call in one form. What cannot wait goes on to who can be there when. */
export function CallForm({ kitchenId, units, caller }: Props) {
  const { form, error, busy } = useActionForm(takeCall);
  return (
    <Sheet title="The call">
      <ActionForm {...form} className="flex flex-col gap-4">
        <FormErrors errors={error('') ?? error('kitchenId')} />
        <input type="hidden" name="kitchenId" value={kitchenId} />
        <TextArea
          label="What is wrong"
          name="what"
          rows={2}
          hint="In the caller’s words; the technician reads it."
          error={error('what')}
          autoFocus
          required
        />
        <fieldset>
          <legend className="font-bold">How soon</legend>
          {error('urgency') ? (
            <p role="alert" className="text-sm font-bold text-alarm">
              {error('urgency')?.join(' ')}
            </p>
          ) : null}
          <div className="mt-1 flex flex-col">
            {JOB_URGENCIES.map((u) => (
              <label key={u} className="flex min-h-9 items-center gap-2">
                <input type="radio" name="urgency" value={u} className="size-5" /> {JOB_URGENCY_LABEL[u]}
              </label>
            ))}
          </div>
        </fieldset>
        <fieldset>
          <legend className="font-bold">Units</legend>
          <p className="text-sm text-soft">None chosen: nobody knows yet which one.</p>
          {error('unitIds') ? (
            <p role="alert" className="text-sm font-bold text-alarm">
              {error('unitIds')?.join(' ')}
            </p>
          ) : null}
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
        </fieldset>
        <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
          <Field label="Who rings" name="callerName" defaultValue={caller.name} error={error('callerName')} autoComplete="off" />
          <Field
            label="Ring back"
            name="callerPhone"
            type="tel"
            defaultValue={caller.phone}
            error={error('callerPhone')}
            autoComplete="off"
          />
        </div>
        <div className="flex flex-wrap gap-3">
          <Button type="submit" look="primary" disabled={busy}>
            {busy ? 'Filing …' : 'Take the call'}
          </Button>
          <ButtonLink href="/jobs" look="quiet">
            Back without saving
          </ButtonLink>
        </div>
      </ActionForm>
    </Sheet>
  );
}
