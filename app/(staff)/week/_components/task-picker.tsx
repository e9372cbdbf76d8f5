'use client';

import { daysBetween, type LocalDate } from '@/lib/core/calendar';
import { dayWords } from '@/lib/core/calendar/when';

export type PickableTask = {
  id: string;
  unitId: string;
  unit: string;
  kind: string;
  kindKey: string;
  lowSide: boolean;
  minutes: number;
  dueOn: LocalDate;
  /** The other open visit it stands on. */
  onVisit: { id: string } | null;
};

const due = (t: PickableTask, today: LocalDate) => {
  const late = daysBetween(t.dueOn, today);
  return late > 0 ? `${late} d overdue` : `due ${dayWords(t.dueOn)}`;
};

type Props = {
  tasks: readonly PickableTask[];
  picked: ReadonlySet<string>;
  riders: ReadonlySet<PickableTask>;
  today: LocalDate;
  onPick: (ids: ReadonlySet<string>) => void;
};

/** The tasks of a kitchen by unit; what rides along with a coil is ticked by itself. */
export function TaskPicker({ tasks, picked, riders, today, onPick }: Props) {
  const toggle = (id: string, on: boolean) => onPick(new Set(on ? [...picked, id] : [...picked].filter((t) => t !== id)));
  return (
    <ul className="grid grid-cols-1 gap-3 md:grid-cols-2">
      {byUnit(tasks).map(([unit, group]) => (
        <li key={unit}>
          <h3>{group[0]?.unit}</h3>
          {group.map((t) => (
            <label key={t.id} className="flex min-h-8 items-center gap-2">
              <input
                type="checkbox"
                name="taskIds"
                value={t.id}
                className="size-5 shrink-0"
                disabled={!!t.onVisit}
                checked={picked.has(t.id) || riders.has(t)}
                onChange={(e) => toggle(t.id, e.target.checked)}
              />
              <span>
                {t.kind}{' '}
                <span className="text-soft">
                  ·{' '}
                  {t.onVisit ? 'booked on another visit' : riders.has(t) && !picked.has(t.id) ? 'rides along with the coil' : due(t, today)}
                </span>
              </span>
            </label>
          ))}
        </li>
      ))}
    </ul>
  );
}

function byUnit(tasks: readonly PickableTask[]): [string, PickableTask[]][] {
  const by = new Map<string, PickableTask[]>();
  for (const t of tasks) by.set(t.unitId, [...(by.get(t.unitId) ?? []), t]);
  return [...by];
}
