'use client';

import { Button } from '../../../_ui/button';
import { Check } from '../../../_ui/check';
import { Field, FormErrors, TextArea } from '../../../_ui/field';
import { Saved } from '../../../_ui/saved';
import { Sheet } from '../../../_ui/sheet';
import { ActionForm } from '../../../_ui/action-form';
import { useActionForm } from '../../../_ui/use-action-form';
import { saveReportLook } from '../actions';

export function ReportLookForm({ words, hasLogo, seen }: { words: string; hasLogo: boolean; seen: string }) {
  const { form, error, busy, saved } = useActionForm(saveReportLook);
  return (
    <Sheet title="Reports for customers">
      <ActionForm {...form} className="flex max-w-xl flex-col gap-4">
        <FormErrors errors={error('')} />
        <input type="hidden" name="seen" value={seen} />
        <TextArea label="Words at the end of a report" name="reportWords" defaultValue={words} error={error('reportWords')} />
        <Field
          label={hasLogo ? 'Another picture at its head' : 'Picture at its head'}
          name="logo"
          type="file"
          accept="image/png,image/jpeg,image/webp"
          error={error('logo')}
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
