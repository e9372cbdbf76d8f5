'use client';

import type { ReactNode } from 'react';
import type { Anchor, LocalDate } from '@/lib/core/calendar';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { addUnitTask, saveRule, setLock, takeTaskOff } from '../../actions';
import { RuleFields } from './rule-fields';

export type TaskToChange = {
  id: string;
  version: number;
  label: string;
  rule: string;
  anchor: Anchor;
  anchorDate: LocalDate;
  lastDoneOn: LocalDate | null;
  locked: boolean;
  minWeeks: number;
  maxWeeks: number;
};

function Fold({ label, children }: { label: string; children: ReactNode }) {
  return (
    <details className="open:w-full">
      <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">{label}</summary>
      <div className="mt-2 mb-2 max-w-2xl rounded-md border border-line bg-paper p-4">{children}</div>
    </details>
  );
}

export function EditRuleForm({ task: t }: { task: TaskToChange }) {
  const { form, error, on, busy, saved } = useActionForm(saveRule);
  return (
    <Fold label="Change the rule">
      <ActionForm key={t.version} {...form} className="flex flex-col gap-4">
        <FormErrors errors={error('')} />
        <Hidden of={{ taskId: t.id, version: t.version }} />
        <RuleFields
          idPrefix={`edit-${t.id}`}
          rule={t.rule}
          anchor={t.anchor}
          firstDueOn={t.anchorDate}
          neverDone={t.lastDoneOn === null}
          on={on}
        />
        <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2">
          <Field
            id={`min-${t.id}`}
            label="Never more often than every"
            unit="weeks"
            {...on('minWeeks')}
            inputMode="numeric"
            defaultValue={t.minWeeks}
          />
          <Field
            id={`max-${t.id}`}
            label="Never later than every"
            unit="weeks"
            {...on('maxWeeks')}
            inputMode="numeric"
            defaultValue={t.maxWeeks}
            hint="A contract’s or warranty’s limit."
          />
        </div>
        <Field id={`why-${t.id}`} label="Why" {...on('reason')} autoComplete="off" hint="Stays with the history of the rule." />
        <SaveRow busy={busy} label="Save rule" saved={saved} />
      </ActionForm>
    </Fold>
  );
}

export function LockForm({ task: t }: { task: TaskToChange }) {
  const { form, error, on, busy } = useActionForm(setLock);
  return (
    <Fold label={t.locked ? 'Unlock' : 'Lock'}>
      <ActionForm {...form} className="flex flex-col gap-4">
        <p className="text-soft">
          {t.locked
            ? 'Findings will move the rule again.'
            : 'A locked rule stays whatever is found. What the findings would have done is still told.'}
        </p>
        <FormErrors errors={error('')} />
        <Hidden of={{ taskId: t.id, version: t.version, lock: t.locked ? 'unlock' : 'lock' }} />
        <Field id={`lock-${t.id}`} label="Why" {...on('reason')} autoComplete="off" />
        <Button type="submit" disabled={busy} className="self-start">
          {t.locked ? 'Unlock the rule' : 'Lock the rule'}
        </Button>
      </ActionForm>
    </Fold>
  );
}

export function TakeTaskOffForm({ task: t }: { task: TaskToChange }) {
  const { form, error, on, busy } = useActionForm(takeTaskOff);
  return (
    <Fold label="Take off">
      <ActionForm {...form} className="flex flex-col gap-4">
        <p className="text-soft">{t.label} will no longer come due for this unit. Its history stays, and it can be added again.</p>
        <FormErrors errors={error('')} />
        <Hidden of={{ taskId: t.id, version: t.version }} />
        <Field id={`off-${t.id}`} label="Why" {...on('reason')} autoComplete="off" />
        <Button look="danger" type="submit" disabled={busy} className="self-start">
          Take it off
        </Button>
      </ActionForm>
    </Fold>
  );
}

export function AddTaskForm({ unitId, kinds }: { unitId: string; kinds: { key: string; label: string }[] }) {
  const { form, error, on, busy } = useActionForm(addUnitTask);
  if (kinds.length === 0)
    return <p className="text-sm text-soft">This unit has every kind of task there is. The owner adds kinds under Shop.</p>;
  return (
    <Fold label="Add a task">
      <ActionForm key={kinds.map((k) => k.key).join()} {...form} className="flex flex-col gap-4">
        <FormErrors errors={error('')} />
        <Hidden of={{ unitId }} />
        <Select
          label="What is to be done"
          {...on('kindKey')}
          blank="Choose"
          options={kinds.map((k) => ({ value: k.key, label: k.label }))}
        />
        <RuleFields idPrefix="add" neverDone on={on} />
        <Button look="primary" type="submit" disabled={busy} className="self-start">
          Add task
        </Button>
      </ActionForm>
    </Fold>
  );
}
