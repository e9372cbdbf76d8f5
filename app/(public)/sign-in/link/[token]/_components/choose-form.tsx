'use client';

import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { NewPasswordField } from '@/app/_ui/fields/new-password-field';
import { Notice } from '@/app/_ui/feedback/notice';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
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
      <Hidden of={{ token }} />
      <NewPasswordField error={error('password')} />
      <Button look="primary" size="touch" type="submit" disabled={busy}>
        Use this password
      </Button>
    </ActionForm>
  );
}
