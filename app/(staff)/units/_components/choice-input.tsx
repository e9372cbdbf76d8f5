import type { ComponentProps } from 'react';
import type { ChoiceField } from '@/lib/core/equipment/field';
import { keysOf } from '@/lib/core/typed/closed-set';
import { Select } from '@/app/_ui/fields/field';

type Props = { field: ChoiceField; name: string; error?: string[] } & Omit<ComponentProps<typeof Select>, 'label' | 'options' | 'name'>;

export function ChoiceInput({ field, ...rest }: Props) {
  const options = keysOf(field.labels).map((value) => ({ value, label: field.labels[value] ?? value }));
  return <Select label={field.label} hint={field.hint} options={options} {...rest} />;
}
