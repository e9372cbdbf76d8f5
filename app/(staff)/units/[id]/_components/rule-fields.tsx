'use client';

import { useState } from 'react';
import { describeRule, parseRule, WEEKDAY_CODES, WEEKDAY_NAMES, type Anchor, type LocalDate } from '@/lib/core/calendar';
import { Field, Select } from '@/app/_ui/fields/field';
import type { On } from '@/app/_ui/forms/use-sent-form';

const DAYS = WEEKDAY_NAMES.map((label, i) => ({ value: String(i), label }));
const ANCHORS = [
  { value: 'last_completed', label: 'the last visit' },
  { value: 'calendar', label: 'the calendar' },
];

type Props = {
  idPrefix: string;
  rule?: string;
  anchor?: Anchor;
  firstDueOn?: LocalDate;
  neverDone: boolean;
  on: On;
};

/** The weeks of a plain rule and its weekday; null when only the rule itself can say it. */
function asWeeks(text: string | undefined): { weeks: number; weekday: string } | null {
  if (!text) return { weeks: 0, weekday: '' };
  const r = parseRule(text);
  const plain = `FREQ=WEEKLY;INTERVAL=${r.interval}${r.byDay[0] ? `;BYDAY=${WEEKDAY_CODES[r.byDay[0].weekday]}` : ''}`;
  return r.byDay.length <= 1 && r.text === plain ? { weeks: r.interval, weekday: r.byDay[0] ? String(r.byDay[0].weekday) : '' } : null;
}

/** A rule as weeks, or as RFC 5545 writes it where weeks cannot say it. */
export function RuleFields({ idPrefix, rule, anchor, firstDueOn, neverDone, on }: Props) {
  const weeks = asWeeks(rule);
  const [form, setForm] = useState<'weeks' | 'rule'>(weeks ? 'weeks' : 'rule');
  const [counted, setCounted] = useState<Anchor>(anchor ?? 'last_completed');
  const at = (name: string) => ({ id: `${idPrefix}-${name}`, ...on(name) });
  return (
    <>
      <fieldset className="flex flex-wrap gap-x-5 gap-y-1">
        <legend className="sr-only">How the rule is written</legend>
        {(['weeks', 'rule'] as const).map((f) => (
          <label key={f} className="flex min-h-9 items-center gap-2">
            <input
              type="radio"
              name="form"
              value={f}
              checked={form === f}
              onChange={() => setForm(f)}
              className="size-5 accent-[var(--cold)]"
            />
            {f === 'weeks' ? 'Every so many weeks' : 'A rule of its own'}
          </label>
        ))}
      </fieldset>
      <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2">
        {form === 'weeks' ? (
          <>
            <Field {...at('weeks')} label="Weeks" inputMode="numeric" defaultValue={weeks?.weeks || ''} autoComplete="off" />
            <Select {...at('weekday')} label="On" blank="Any weekday" options={DAYS} defaultValue={weeks?.weekday ?? ''} />
          </>
        ) : (
          <div className="sm:col-span-2">
            <Field
              {...at('ruleText')}
              label="Rule"
              defaultValue={rule}
              autoComplete="off"
              spellCheck={false}
              hint={
                rule
                  ? `Now: ${describeRule(rule)}.`
                  : 'As RFC 5545 writes it. First Tuesday of every second month: FREQ=MONTHLY;INTERVAL=2;BYDAY=1TU'
              }
            />
          </div>
        )}
        <Select
          {...at('anchor')}
          label="Counted from"
          options={ANCHORS}
          value={counted}
          onChange={(e) => setCounted(e.target.value as Anchor)}
          hint={counted === 'calendar' ? 'Dates stay where they are.' : 'A late visit moves the next date.'}
        />
        {counted === 'calendar' || neverDone ? (
          <Field
            {...at('firstDueOn')}
            label="First date"
            type="date"
            defaultValue={firstDueOn}
            hint="Moved on to the rule’s weekday if it names one."
          />
        ) : null}
      </div>
    </>
  );
}
