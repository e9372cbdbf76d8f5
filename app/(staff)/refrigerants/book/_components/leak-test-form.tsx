'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { testLeak } from '../actions';

/** A test made outside a repair record. */
export function LeakTestForm({ unitId, today }: { unitId: string; today: string }) {
  const { form, error, busy, saved } = useActionForm(testLeak);
  return (
    <ActionForm {...form} className="grid grid-cols-1 items-end gap-4 sm:grid-cols-2 lg:grid-cols-5">
      <FormErrors errors={error('')} />
      <input type="hidden" name="unitId" value={unitId} />
      <Field label="Day" name="on" type="date" defaultValue={today} error={error('on')} />
      <Select
        label="Which"
        name="kind"
        error={error('kind')}
        options={[
          { value: 'initial', label: 'First, after the repair' },
          { value: 'follow_up', label: 'Follow-up' },
        ]}
      />
      <Select
        label="Outcome"
        name="passed"
        error={error('passed')}
        options={[
          { value: 'yes', label: 'Passed' },
          { value: 'no', label: 'Failed' },
        ]}
      />
      <Field label="How" name="how" error={error('how')} autoComplete="off" />
      <div className="flex items-center gap-3">
        <Button type="submit" disabled={busy}>
          Keep the test
        </Button>
        <Saved when={saved} />
      </div>
    </ActionForm>
  );
}
