'use client';

import type { LeakMethod } from '@/lib/core/refrigerant-book';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, Select } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { saveLeakRules } from '../actions';

/** Which rules the shop reads its figures by. */
export function RuleForm({ ruleSet, method }: { ruleSet: 'us' | 'eu'; method: LeakMethod }) {
  const { form, error, on, busy, saved } = useActionForm(saveLeakRules);
  return (
    <ActionForm {...form} className="flex flex-wrap items-end gap-4">
      <FormErrors errors={error('')} />
      <Select
        label="Rules that count here"
        {...on('leakRuleSet')}
        defaultValue={ruleSet}
        options={[
          { value: 'us', label: 'United States: leak rates and repair' },
          { value: 'eu', label: 'European Union: leak checks too' },
        ]}
      />
      <Select
        label="Method, for all units alike"
        {...on('leakMethod')}
        defaultValue={method}
        options={[
          { value: 'annualizing', label: 'Annualizing' },
          { value: 'rolling', label: 'Rolling year' },
        ]}
      />
      <Button type="submit" disabled={busy}>
        Save rules
      </Button>
      <Saved when={saved} />
    </ActionForm>
  );
}
