'use client';

import type { ComponentProps } from 'react';
import { Check } from '@/app/_ui/fields/check';
import { Field, Select } from '@/app/_ui/fields/field';
import type { On } from '@/app/_ui/forms/use-sent-form';

type Props = {
  technicians: { value: string; label: string }[];
  defaults: { technicianId: string; date: string; from: string; minutes: string };
  on: On;
  minutesHint?: string;
};

/** Who, which day, from when, how long; and the tick that says the kitchen agreed. */
export function SlotFields({ technicians, defaults, on, minutesHint }: Props) {
  return (
    <>
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Select
          label="Technician"
          {...on('technicianId')}
          options={technicians}
          blank="Choose"
          defaultValue={defaults.technicianId}
          required
        />
        <Field label="Day" {...on('date')} type="date" defaultValue={defaults.date} required />
        <Field label="From" {...on('from')} type="time" defaultValue={defaults.from} hint="The kitchen’s own time." required />
        <VisitLength key={defaults.minutes} {...on('minutes')} defaultValue={defaults.minutes} hint={minutesHint} />
      </div>
      <Anyway messages={on('anyway').error} />
    </>
  );
}

/** How long a visit takes: ten minutes to twelve hours. */
export const VisitLength = (props: Omit<ComponentProps<typeof Field>, 'label' | 'unit'>) => (
  <Field label="Length" unit="minutes" type="number" inputMode="numeric" min={10} max={720} step={5} required {...props} />
);

/** What speaks against a slot, and the tick that it is agreed all the same. */
export const Anyway = ({ messages }: { messages?: string[] }) =>
  messages?.length ? (
    <div className="rounded-md border-2 border-alarm bg-alarm-wash p-4" role="alert">
      <p className="font-bold text-alarm">{messages.join(' ')}</p>
      <Check label="Book anyway" name="anyway" className="mt-2" />
    </div>
  ) : null;
