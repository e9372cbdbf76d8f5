'use client';

import { JOB_URGENCIES, JOB_URGENCY_LABEL, type JobUrgency } from '@/lib/core/jobs/states';
import { FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { editJob } from '../../actions';

type Props = {
  job: { id: string; version: number; what: string; urgency: JobUrgency; unitIds: string[] };
  units: { id: string; name: string }[];
};

const URGENCIES = JOB_URGENCIES.map((value) => ({ value, label: JOB_URGENCY_LABEL[value] }));

/** Words, urgency and units of the job, folded away until they have to change. */
export function EditForm({ job, units }: Props) {
  const { form, error, on, busy, saved } = useActionForm(editJob);
  return (
    <details className="rounded-lg border border-line bg-sheet p-4">
      <summary className="min-h-9 cursor-pointer font-bold text-cold">Change words, urgency or units</summary>
      <ActionForm {...form} className="mt-3 flex flex-col gap-4">
        <FormErrors errors={error('') ?? error('unitIds')} />
        <Hidden of={{ jobId: job.id, version: job.version }} />
        <TextArea id="edit-what" label="What is wrong" {...on('what')} rows={2} defaultValue={job.what} />
        <Select label="How soon" {...on('urgency')} options={URGENCIES} defaultValue={job.urgency} />
        <fieldset>
          <legend className="font-bold">Units</legend>
          {units.map((u) => (
            <label key={u.id} className="flex min-h-9 items-center gap-2">
              <input type="checkbox" name="unitIds" value={u.id} defaultChecked={job.unitIds.includes(u.id)} className="size-5 shrink-0" />{' '}
              {u.name}
            </label>
          ))}
        </fieldset>
        <SaveRow busy={busy} label="Save" look="plain" saved={saved} />
      </ActionForm>
    </details>
  );
}
