'use client';

import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { testLeak } from '../actions';

/** A test made outside a repair record. */
export function LeakTestForm({ unitId, today }: { unitId: string; today: string }) {
  const { form, error, on, busy, saved } = useActionForm(testLeak);
  return (
    <ActionForm {...form} className="grid grid-cols-1 items-end gap-4 sm:grid-cols-2 lg:grid-cols-5">
      <FormErrors errors={error('')} />
      <Hidden of={{ unitId }} />
      <Field label="Day" {...on('on')} type="date" defaultValue={today} />
      <Select
        label="Which"
        {...on('kind')}
        options={[
          { value: 'initial', label: 'First, after the repair' },
          { value: 'follow_up', label: 'Follow-up' },
        ]}
      />
      <Select
        label="Outcome"
        {...on('passed')}
        options={[
          { value: 'yes', label: 'Passed' },
          { value: 'no', label: 'Failed' },
        ]}
      />
      <Field label="How" {...on('how')} autoComplete="off" />
      <SaveRow busy={busy} label="Keep the test" look="plain" saved={saved} />
    </ActionForm>
  );
}
