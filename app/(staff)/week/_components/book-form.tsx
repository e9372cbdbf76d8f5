'use client';

import { useMemo, useState } from 'react';
import { daysBetween, type LocalDate } from '@/lib/core/calendar';
import { minutesOnSite, siteTimeWords, type SiteTime } from '@/lib/core/planning/on-site';
import { ridersOf } from '@/lib/core/tasks';
import { Button, ButtonLink } from '../../../_ui/button';
import { FormErrors, TextArea } from '../../../_ui/field';
import { Sheet } from '../../../_ui/sheet';
import { useActionForm } from '../../../_ui/use-action-form';
import { dayWords } from '@/lib/core/calendar/when';
import { book } from '../actions';
import { SlotFields } from './slot-fields';

type Task = {
  id: string;
  unitId: string;
  unit: string;
  kind: string;
  kindKey: string;
  lowSide: boolean;
  minutes: number;
  dueOn: LocalDate;
  onVisit: { id: string } | null;
};
type Props = {
  kitchenId: string;
  tasks: Task[];
  chosen: string[];
  today: LocalDate;
  siteTime: SiteTime;
  technicians: { value: string; label: string }[];
  defaults: { technicianId: string; date: string; from: string };
};

const due = (t: Task, today: LocalDate) => {
  const late = daysBetween(t.dueOn, today);
  return late > 0 ? `${late} d overdue` : `due ${dayWords(t.dueOn)}`;
};

export function BookForm({ kitchenId, tasks, chosen, today, siteTime, technicians, defaults }: Props) {
  const { form, error, busy } = useActionForm(book);
  const [picked, setPicked] = useState(() => new Set(chosen));
  const units = useMemo(() => byUnit(tasks), [tasks]);
  const riders = new Set(ridersOf(tasks, (t) => picked.has(t.id)));
  const rides = (t: Task) => riders.has(t);
  const work = tasks.filter((t) => picked.has(t.id) || rides(t)).map((t) => t.minutes);
  const standard = work.reduce((sum, m) => sum + m, 0);
  const access = Math.round(siteTime.accessMinutes);

  function toggle(id: string, on: boolean) {
    const next = new Set(picked);
    if (on) next.add(id);
    else next.delete(id);
    setPicked(next);
  }

  return (
    <form {...form} className="flex flex-col gap-5">
      <input type="hidden" name="kitchenId" value={kitchenId} />
      <FormErrors errors={error('')} />
      <FormErrors errors={error('taskIds') ?? error('kitchenId')} />
      <Sheet
        title="Tasks"
        aside={
          <span className="text-soft">
            {picked.size} chosen, {standard} standard minutes
          </span>
        }
      >
        {units.length === 0 ? <p className="text-soft">No unit of this kitchen has tasks yet. Add units first.</p> : null}
        <ul className="grid grid-cols-1 gap-3 md:grid-cols-2">
          {units.map((group) => (
            <li key={group[0]!.unitId}>
              <h3>{group[0]!.unit}</h3>
              {group.map((t) => (
                <label key={t.id} className="flex min-h-8 items-center gap-2">
                  <input
                    type="checkbox"
                    name="taskIds"
                    value={t.id}
                    className="size-5 shrink-0"
                    disabled={!!t.onVisit}
                    checked={picked.has(t.id) || rides(t)}
                    onChange={(e) => toggle(t.id, e.target.checked)}
                  />
                  <span>
                    {t.kind}{' '}
                    <span className="text-soft">
                      · {t.onVisit ? 'already booked' : rides(t) && !picked.has(t.id) ? 'rides along with the coil' : due(t, today)}
                    </span>
                  </span>
                </label>
              ))}
            </li>
          ))}
        </ul>
      </Sheet>
      <Sheet title="When and who">
        <div className="flex flex-col gap-4">
          <SlotFields
            technicians={technicians}
            defaults={{
              ...defaults,
              minutes: String(Math.min(720, Math.max(30, Math.ceil(minutesOnSite(siteTime, work) / 5) * 5))),
            }}
            error={error}
            minutesHint={`${standard} standard minutes and ${access} to get in and out; ${siteTimeWords(siteTime)}. Change it if you know better.`}
          />
          <TextArea label="Note for the technician" name="note" error={error('note')} />
          <label className="flex items-center gap-2">
            <input type="checkbox" name="fixed" className="size-5" /> Fixed appointment: planning leaves it where it is
          </label>
        </div>
      </Sheet>
      <div className="flex gap-3">
        <Button look="primary" type="submit" disabled={busy}>
          {busy ? 'Booking …' : 'Book the visit'}
        </Button>
        <ButtonLink href="/week" look="quiet">
          Leave without booking
        </ButtonLink>
      </div>
    </form>
  );
}

function byUnit(tasks: Task[]): Task[][] {
  const by = new Map<string, Task[]>();
  for (const t of tasks) by.set(t.unitId, [...(by.get(t.unitId) ?? []), t]);
  return [...by.values()];
}
