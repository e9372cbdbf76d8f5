'use client';

import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { NewPasswordField } from '@/app/_ui/fields/new-password-field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { changeMyPassword, saveMyUnits } from '../actions';

const CHOICES = [
  { name: 'temperatureUnit', legend: 'Temperature', of: 'temperature', options: [['F', '°F'], ['C', '°C']] },
  { name: 'pressureUnit', legend: 'Pressure', of: 'pressure', options: [['psig', 'psig'], ['bar', 'bar']] },
  { name: 'massUnit', legend: 'Charge', of: 'mass', options: [['oz', 'ounces'], ['g', 'grams']] },
] as const; // prettier-ignore

export function UnitsForm({ units }: { units: MeasureUnits }) {
  const { form, error, busy, saved } = useActionForm(saveMyUnits);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <div className="flex flex-wrap gap-x-10 gap-y-4">
        {CHOICES.map((c) => (
          <fieldset key={c.name}>
            <legend className="mb-1 font-bold">{c.legend}</legend>
            {c.options.map(([value, label]) => (
              <label key={value} className="flex min-h-9 items-center gap-2">
                <input
                  type="radio"
                  name={c.name}
                  value={value}
                  defaultChecked={units[c.of] === value}
                  className="size-5 accent-[var(--cold)]"
                />
                {label}
              </label>
            ))}
          </fieldset>
        ))}
      </div>
      <SaveRow busy={busy} label="Use these" saved={saved} />
    </ActionForm>
  );
}

export function MyPasswordForm() {
  const { form, error, on, busy, saved } = useActionForm(changeMyPassword);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Field label="Password you have now" {...on('current')} type="password" autoComplete="current-password" />
      <NewPasswordField error={error('password')} />
      <SaveRow busy={busy} label="Change password" saved={saved} said="Changed. Your other sessions have ended." />
    </ActionForm>
  );
}
