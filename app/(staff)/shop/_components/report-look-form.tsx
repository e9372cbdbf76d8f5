'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Check } from '@/app/_ui/fields/check';
import { Field, FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { Sheet } from '@/app/_ui/page/sheet';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { saveReportLook } from '../actions';

export function ReportLookForm({ footer, hasLogo, seen }: { footer: string; hasLogo: boolean; seen: string }) {
  const { form, error, on, busy, saved } = useActionForm(saveReportLook);
  return (
    <Sheet title="Reports for customers">
      <ActionForm {...form} className="flex max-w-xl flex-col gap-4">
        <FormErrors errors={error('')} />
        <Hidden of={{ seen }} />
        <TextArea label="Words at the end of a report" {...on('reportWords')} defaultValue={footer} />
        <Field
          label={hasLogo ? 'Another picture at its head' : 'Picture at its head'}
          {...on('logo')}
          type="file"
          accept="image/png,image/jpeg,image/webp"
          hint="The shop’s mark: PNG, JPEG or WebP, at most 2 MB."
        />
        {hasLogo ? <Check name="removeLogo" label="Leave the picture out" /> : null}
        <div className="flex items-center gap-3">
          <Button type="submit" disabled={busy}>
            Save the look of reports
          </Button>
          <Saved when={saved} />
        </div>
      </ActionForm>
    </Sheet>
  );
}
