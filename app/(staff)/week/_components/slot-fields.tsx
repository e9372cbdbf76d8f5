'use client';

import type { ComponentProps } from 'react';
import { Field, Select } from '@/app/_ui/fields/field';

type Props = {
  technicians: { value: string; label: string }[];
  defaults: { technicianId: string; date: string; from: string; minutes: string };
  error: (name: string) => string[] | undefined;
  minutesHint?: string;
};

/** Who, which day, from when, how long; and the tick that says the kitchen agreed. */
export function SlotFields({ technicians, defaults, error, minutesHint }: Props) {
  const on = (name: string) => ({ name, error: error(name) });
  return (
    <>
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Select
          label="Technician"
          name="technicianId"
          options={technicians}
          blank="Choose"
          defaultValue={defaults.technicianId}
          error={error('technicianId')}
          required
        />
        <Field label="Day" name="date" type="date" defaultValue={defaults.date} error={error('date')} required />
        <Field
          label="From"
          name="from"
          type="time"
          defaultValue={defaults.from}
          error={error('from')}
          hint="The kitchen’s own time."
          required
        />
        <VisitLength key={defaults.minutes} {...on('minutes')} defaultValue={defaults.minutes} hint={minutesHint} />
      </div>
      <Anyway words={error('anyway')} />
    </>
  );
}

/** How long a visit takes: ten minutes to twelve hours. */
export const VisitLength = (props: Omit<ComponentProps<typeof Field>, 'label' | 'unit'>) => (
  <Field label="Length" unit="minutes" type="number" inputMode="numeric" min={10} max={720} step={5} required {...props} />
);

/** What speaks against a slot, and the tick that it is agreed all the same. */
export const Anyway = ({ words }: { words?: string[] }) =>
  words?.length ? (
    <div className="rounded-md border-2 border-alarm bg-alarm-wash p-4" role="alert">
      <p className="font-bold text-alarm">{words.join(' ')}</p>
      <label className="mt-2 flex items-center gap-2 font-bold">
        <input type="checkbox" name="anyway" className="size-5" /> Book anyway
      </label>
    </div>
  ) : null;
