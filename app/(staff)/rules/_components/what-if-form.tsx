'use client';

import { useRef } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import type { ShopPolicy } from '@/lib/core/intervals/policy';
import { LEARNING_TASKS, TASK_KIND_INFO } from '@/lib/core/tasks';
import { kelvinToCelsius, kelvinToFahrenheit } from '@/lib/core/measures';
import { askPolicy } from '../actions';
import { DragField } from './drag-field';
import { WhatIfAnswer } from './what-if-answer';

type Props = { rules: ShopPolicy; seen: string; degrees: 'F' | 'C'; currency: string };
/** `drag`: the ends and the step of the slider under the field. */
type Row = { name: string; label: string; unit: string; value: number; hint?: string; drag?: [min: number, max: number, step: number] };

const tidy = (x: number) => Number(x.toFixed(2));

function rows({ rules: r, degrees, currency }: Props): { title: string; rows: Row[] }[] {
  const discharge = degrees === 'C' ? kelvinToCelsius(r.ownLimits.dischargeK) : kelvinToFahrenheit(r.ownLimits.dischargeK);
  return [
    {
      title: 'What a coil may cost the box',
      rows: [
        {
          name: 'riskPercent',
          label: 'Accepted chance of passing a limit',
          unit: '%',
          value: tidy(r.risk * 100),
          hint: 'Between two cleanings, for each coil.',
          drag: [1, 50, 1],
        },
        {
          name: 'packedRiskPercent',
          label: 'Accepted chance of a packed coil',
          unit: '%',
          value: tidy(r.packedRisk * 100),
          hint: 'On the day a cleaning falls due, for each coil.',
          drag: [1, 30, 0.5],
        },
        {
          name: 'coolingLostPercent',
          label: 'Cooling lost on a hot day',
          unit: '%',
          value: tidy(r.ownLimits.coolingLost * 100),
          drag: [2, 40, 1],
        },
        {
          name: 'discharge',
          label: 'Discharge gas, hot day',
          unit: `°${degrees}`,
          value: Math.round(discharge),
          hint: 'Maker’s limit where it is lower. Oil suffers first.',
          drag: degrees === 'C' ? [90, 130, 1] : [195, 265, 1],
        },
      ],
    },
    {
      title: 'What things cost',
      rows: [
        { name: 'cleaningCost', label: 'One coil cleaning', unit: currency, value: r.cleaningCost, drag: [10, 300, 5] },
        {
          name: 'tripCost',
          label: 'The trip’s part of that',
          unit: currency,
          value: r.tripCost,
          hint: 'Spared where somebody is due in the kitchen that week anyway.',
          drag: [0, 100, 5],
        },
        {
          name: 'deepCleaningCost',
          label: 'Washing a coil right through',
          unit: currency,
          value: r.deepCleaningCost,
          hint: 'Pulled, or foamed and rinsed right through.',
          drag: [20, 800, 10],
        },
        {
          name: 'comebackCost',
          label: 'A coil found packed',
          unit: currency,
          value: r.comebackCost,
          hint: 'Going back, a warm box, a complaint.',
          drag: [0, 600, 10],
        },
        { name: 'inspectionCost', label: 'One look at a drain or evaporator', unit: currency, value: r.inspectionCost, drag: [5, 150, 5] },
        {
          name: 'failureCost',
          label: 'One breakdown',
          unit: currency,
          value: r.failureCost,
          hint: 'Call-out, food, parts.',
          drag: [100, 5000, 50],
        },
        {
          name: 'hiddenFailureCostPerDay',
          label: 'A day with a stopped drain',
          unit: currency,
          value: r.hiddenFailureCostPerDay,
          drag: [1, 100, 1],
        },
        {
          name: 'energyCostPerDayPerLnK',
          label: 'Energy of a fouled coil, without a price',
          unit: `${currency}/day`,
          value: r.energyCostPerDayPerLnK,
          hint: 'Where the kitchen has no energy price: for a coil at 37 % of its conductance.',
        },
      ],
    },
    {
      title: 'Shortest and longest intervals',
      rows: [
        { name: 'minWeeks', label: 'Shortest interval', unit: 'weeks', value: r.minWeeks },
        { name: 'minWeeksUnlessSevere', label: 'Shortest without a packed coil or a trip', unit: 'weeks', value: r.minWeeksUnlessSevere },
        ...LEARNING_TASKS.map((key) => ({
          name: `maxWeeks.${key}`,
          label: `Longest, ${TASK_KIND_INFO[key].label.toLowerCase()}`,
          unit: 'weeks',
          value: r.maxWeeks[key],
        })),
        { name: 'cleanFindings', label: 'Clean findings running before loosening', unit: 'times', value: r.cleanFindings },
        { name: 'lateDays', label: 'Visits usually come after their date by', unit: 'days', value: r.lateDays },
        { name: 'returnWithinDays', label: 'Go back after a packed coil, ice or a trip within', unit: 'days', value: r.returnWithinDays },
      ],
    },
  ];
}

export function WhatIfForm(props: Props) {
  const { form, error, busy, data } = useActionForm(askPolicy, { asks: true });
  const look = useRef<HTMLButtonElement>(null);
  return (
    <div className="grid grid-cols-[minmax(0,1fr)] items-start gap-6 lg:grid-cols-[minmax(0,1fr)_minmax(0,1fr)]">
      <ActionForm {...form} className="flex flex-col gap-5" aria-busy={busy}>
        <FormErrors errors={error('')} />
        <Hidden of={{ seen: props.seen, degrees: props.degrees }} />
        {rows(props).map((group) => (
          <Sheet key={group.title} title={group.title}>
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
              {group.rows.map((r) => (
                <DragField key={r.name} row={r} error={error(r.name)} onLet={() => look.current?.click()} />
              ))}
            </div>
          </Sheet>
        ))}
        <div className="flex flex-wrap gap-2">
          <Button ref={look} type="submit" look="primary" name="intent" value="look" disabled={busy}>
            {busy ? 'Working it out …' : 'See what moves'}
          </Button>
          <Button type="submit" name="intent" value="save" disabled={busy}>
            Save these settings
          </Button>
        </div>
      </ActionForm>
      <div className="lg:sticky lg:top-4" aria-live="polite">
        <WhatIfAnswer answer={data?.answer ?? null} saved={data?.saved ?? false} currency={props.currency} />
      </div>
    </div>
  );
}
