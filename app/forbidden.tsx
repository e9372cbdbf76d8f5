import { ButtonLink } from '@/app/_ui/buttons/button';
import { Notice } from '@/app/_ui/feedback/notice';

export default function Forbidden() {
  return (
    <main className="px-5">
      <Notice
        title="Not for this sign-in"
        action={
          <ButtonLink href="/" look="primary">
            Back to my first screen
          </ButtonLink>
        }
      >
        Your role does not open this page. The shop’s owner decides who sees what, under People.
      </Notice>
    </main>
  );
}
