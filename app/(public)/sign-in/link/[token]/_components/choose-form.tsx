'use client';

import { Button, ButtonLink } from '../../../../../_ui/button';
import { FormErrors } from '../../../../../_ui/field';
import { NewPasswordField } from '../../../../../_ui/new-password-field';
import { Notice } from '../../../../../_ui/notice';
import { ActionForm } from '../../../../../_ui/action-form';
import { useActionForm } from '../../../../../_ui/use-action-form';
import { choose } from '../../../actions';

export function ChooseForm({ token }: { token: string }) {
  const { form, error, busy, saved } = useActionForm(choose);
  if (saved)
    return (
      <Notice
        title="That is your password now"
        action={
          <ButtonLink look="primary" href="/sign-in">
            Sign in
          </ButtonLink>
        }
      >
        The link is used up.
      </Notice>
    );
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <input type="hidden" name="token" value={token} />
      <NewPasswordField error={error('password')} />
      <Button look="primary" size="touch" type="submit" disabled={busy}>
        Use this password
      </Button>
    </ActionForm>
  );
}
