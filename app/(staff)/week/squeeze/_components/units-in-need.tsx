'use client';

import { Group } from '@/app/_ui/fields/group';

export type UnitInNeed = { id: string; name: string; tasks: { id: string; kind: string; minutes: number; booked: boolean }[] };
type Props = {
  units: UnitInNeed[];
  chosen?: readonly string[];
  ticked: ReadonlySet<string>;
  onTick: (ids: ReadonlySet<string>) => void;
  error?: string[];
};

/** Which units, and which of their tasks to do on the same trip. Neither need be known. */
export function UnitsInNeed({ units, chosen = [], ticked, onTick, error }: Props) {
  if (units.length === 0) return null;
  const toggle = (id: string, on: boolean) => onTick(new Set(on ? [...ticked, id] : [...ticked].filter((t) => t !== id)));
  return (
    <Group
      legend="Units"
      hint="None chosen: whoever is sent may touch any unit of this kitchen. Tasks ticked are done on the same trip; a coil brings its low side along."
      error={error}
    >
      <ul
        className="mt-2 grid max-h-80 grid-cols-1 gap-x-4 gap-y-1 overflow-y-auto rounded-md border border-line p-2 md:grid-cols-2"
        tabIndex={0}
        aria-label="Units of the kitchen"
      >
        {units.map((u) => (
          <li key={u.id}>
            <label className="flex min-h-8 items-center gap-2 font-bold">
              <input type="checkbox" name="unitIds" value={u.id} className="size-5 shrink-0" defaultChecked={chosen.includes(u.id)} />{' '}
              {u.name}
            </label>
            <ul className="ml-7 flex flex-wrap gap-x-4">
              {u.tasks.map((t) => (
                <li key={t.id}>
                  <label className="flex min-h-7 items-center gap-1.5 text-sm">
                    <input
                      type="checkbox"
                      name="taskIds"
                      value={t.id}
                      className="size-4 shrink-0"
                      disabled={t.booked}
                      checked={ticked.has(t.id)}
                      onChange={(e) => toggle(t.id, e.target.checked)}
                    />
                    <span>
                      {t.kind}
                      <span className="sr-only"> of {u.name}</span>
                      {t.booked ? <span className="text-soft"> · already booked</span> : null}
                    </span>
                  </label>
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </Group>
  );
}
