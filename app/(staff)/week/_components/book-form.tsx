'use client';

import { useState } from 'react';
import type { LocalDate } from '@/lib/core/calendar';
import { bookedMinutes, lengthWords, type SiteTime } from '@/lib/core/planning/on-site';
import { ridersOf } from '@/lib/core/tasks';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { book } from '../actions';
import { SlotFields } from './slot-fields';
import { TaskPicker, type PickableTask } from './task-picker';

type Props = {
  kitchenId: string;
  tasks: PickableTask[];
  chosen: string[];
  today: LocalDate;
  siteTime: SiteTime;
  technicians: { value: string; label: string }[];
  defaults: { technicianId: string; date: string; from: string };
};

export function BookForm({ kitchenId, tasks, chosen, today, siteTime, technicians, defaults }: Props) {
  const { form, error, on, busy } = useActionForm(book);
  const [picked, setPicked] = useState<ReadonlySet<string>>(() => new Set(chosen));
  const riders = new Set(ridersOf(tasks, (t) => picked.has(t.id)));
  const work = tasks.filter((t) => picked.has(t.id) || riders.has(t)).map((t) => t.minutes);
  const standard = work.reduce((sum, m) => sum + m, 0);

  return (
    <ActionForm {...form} className="flex flex-col gap-5">
      <Hidden of={{ kitchenId }} />
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
        {tasks.length === 0 ? <p className="text-soft">No unit of this kitchen has tasks yet. Add units first.</p> : null}
        <TaskPicker tasks={tasks} picked={picked} riders={riders} today={today} onPick={setPicked} />
      </Sheet>
      <Sheet title="When and who">
        <div className="flex flex-col gap-4">
          <SlotFields
            technicians={technicians}
            defaults={{
              ...defaults,
              minutes: String(bookedMinutes(siteTime, work)),
            }}
            on={on}
            minutesHint={`${lengthWords(siteTime, work)} Change it if you know better.`}
          />
          <TextArea label="Note for the technician" {...on('note')} />
          <label className="flex items-center gap-2">
            <input type="checkbox" name="fixed" className="size-5" /> Fixed appointment: planning leaves it where it is
          </label>
        </div>
      </Sheet>
      <SaveRow busy={busy} label="Book the visit" sending="Booking …">
        <ButtonLink href="/week" look="quiet">
          Leave without booking
        </ButtonLink>
      </SaveRow>
    </ActionForm>
  );
}
