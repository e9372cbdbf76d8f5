'use client';

import { useRef } from 'react';
import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { WEEKDAY_NAMES, type Weekday } from '@/lib/core/calendar';
import { writeDayHours } from '@/lib/core/hours';
import { DAY_KEYS } from '@/lib/schemas/values/fields';
import { Button } from '../buttons/button';

type Props = { legend: string; hint: string; name: string; hours: readonly WeeklyWindow[]; error: (name: string) => string[] | undefined };

/** Hours of a week as lines of text, one a day: quicker to type and to check than fourteen clocks. */
export function HoursFields({ legend, hint, name, hours, error }: Props) {
  const box = useRef<HTMLFieldSetElement>(null);

  function copyMonday() {
    const inputs = [...(box.current?.querySelectorAll('input') ?? [])];
    for (const input of inputs.slice(1, 5)) input.value = inputs[0]?.value ?? '';
  }

  return (
    <fieldset ref={box} id={name} className="flex flex-col gap-2">
      <legend className="mb-1 font-bold">{legend}</legend>
      <p className="text-sm text-soft">{hint}</p>
      {DAY_KEYS.map((key, i) => {
        const id = `f-${name}-${key}`;
        const wrong = error(`${name}.${key}`);
        return (
          <div key={key} className="grid grid-cols-[6.5rem_minmax(0,1fr)] items-center gap-x-3">
            <label htmlFor={id}>{WEEKDAY_NAMES[i]}</label>
            <input
              id={id}
              name={`${name}.${key}`}
              defaultValue={writeDayHours(hours, i as Weekday)}
              aria-invalid={wrong ? true : undefined}
              aria-describedby={wrong ? `${id}-error` : undefined}
              className="min-h-9 w-full rounded-md border border-edge bg-sheet px-3 py-1 aria-[invalid=true]:border-2 aria-[invalid=true]:border-alarm"
            />
            {wrong ? (
              <p id={`${id}-error`} role="alert" className="col-start-2 text-sm font-bold text-alarm">
                {wrong.join(' ')}
              </p>
            ) : null}
          </div>
        );
      })}
      <Button look="quiet" className="self-start" onClick={copyMonday}>
        Use Monday&rsquo;s hours until Friday
      </Button>
    </fieldset>
  );
}
