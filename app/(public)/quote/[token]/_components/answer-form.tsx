'use client';

import { Button } from '../../../../_ui/button';
import { Field, FormErrors, TextArea } from '../../../../_ui/field';
import { ActionForm } from '../../../../_ui/action-form';
import { useActionForm } from '../../../../_ui/use-action-form';
import { answer } from '../actions';

/** Accepts or declines by name. */
export function AnswerForm({ token }: { token: string }) {
  const { form, error, busy } = useActionForm(answer);
  return (
    <ActionForm {...form} className="flex flex-col gap-4 rounded-md border border-edge bg-sheet p-4">
      <h2>Your answer</h2>
      <FormErrors errors={error('') ?? error('answer')} />
      <input type="hidden" name="token" value={token} />
      <Field label="Your name" name="name" error={error('name')} autoComplete="name" required />
      <TextArea label="Anything we should know" name="note" rows={2} error={error('note')} />
      <div className="flex flex-wrap gap-3">
        <Button type="submit" name="answer" value="accepted" look="primary" size="touch" disabled={busy}>
          Accept
        </Button>
        <Button type="submit" name="answer" value="declined" size="touch" disabled={busy}>
          Decline
        </Button>
      </div>
    </ActionForm>
  );
}
