'use client';

import type { JobState } from '@/lib/core/jobs/states';
import { STEP_INFO, type JobStep } from '@/lib/core/jobs/steps';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { takeStep } from '../../actions';

/** What happened, in one tap and as many words as it needs. */
export function StepForm({ jobId, from, steps }: { jobId: string; from: JobState; steps: readonly JobStep[] }) {
  const { form, error, on, busy } = useActionForm(takeStep);
  if (steps.length === 0) return null;
  return (
    <Sheet title="What happened">
      <ActionForm {...form} key={from} className="flex flex-col gap-3">
        <FormErrors errors={error('')} />
        <Hidden of={{ jobId, from }} />
        <TextArea label="In a few words" {...on('reason')} rows={2} maxLength={500} hint="Who said it, what was ordered where, why not." />
        <div className="flex flex-wrap gap-2">
          {steps.map((step) => (
            <Button key={step} type="submit" name="step" value={step} disabled={busy}>
              {STEP_INFO[step].label}
            </Button>
          ))}
        </div>
      </ActionForm>
    </Sheet>
  );
}
