'use client';

import { useState } from 'react';
import type { LocalDate } from '@/lib/core/calendar';
import { bookedMinutes, lengthWords, type SiteTime } from '@/lib/core/planning/on-site';
import { ridersOf } from '@/lib/core/tasks';
import { Check } from '@/app/_ui/fields/check';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { change } from '../actions';
import { VisitLength } from './slot-fields';
import { TaskPicker, type PickableTask } from './task-picker';

type Props = {
  visitId: string;
  version: number;
  tasks: PickableTask[];
  chosen: string[];
  today: LocalDate;
  siteTime: SiteTime;
  minutes: number;
  note: string;
  fixed: boolean;
};

/** What a booked visit does and for how long, its note, and whether it is fixed. */
export function WorkForm({ visitId, version, tasks, chosen, today, siteTime, minutes, note, fixed }: Props) {
  const { form, error, on, busy, saved } = useActionForm(change);
  const [picked, setPicked] = useState<ReadonlySet<string>>(() => new Set(chosen));
  const riders = new Set(ridersOf(tasks, (t) => picked.has(t.id)));
  const work = tasks.filter((t) => picked.has(t.id) || riders.has(t)).map((t) => t.minutes);
  const standing = new Set(chosen);
  const same = tasks.every((t) => standing.has(t.id) === (picked.has(t.id) || riders.has(t)));
  // Its length stands until its work changes.
  const proposed = same ? minutes : bookedMinutes(siteTime, work);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <Hidden of={{ visitId, version }} />
      <FormErrors errors={error('')} />
      <FormErrors errors={error('taskIds')} />
      <TaskPicker tasks={tasks} picked={picked} riders={riders} today={today} onPick={setPicked} />
      <VisitLength
        key={proposed}
        id="f-work-minutes"
        {...on('minutes')}
        defaultValue={String(proposed)}
        hint={
          work.length > 0
            ? `${proposed === bookedMinutes(siteTime, work) ? '' : `It stands at ${proposed} min. By its tasks: `}${lengthWords(siteTime, work)}`
            : undefined
        }
      />
      <TextArea label="Note for the technician" {...on('note')} defaultValue={note} />
      <Check name="fixed" defaultChecked={fixed} label="Fixed appointment" hint="Planning leaves it where it is." />
      <SaveRow busy={busy} label="Save what is done there" saved={saved} />
    </ActionForm>
  );
}
