import { ButtonLink } from '@/app/_ui/buttons/button';
import { Notice } from '@/app/_ui/feedback/notice';

export default function NotFound() {
  return (
    <Notice
      title="Nothing on file here"
      action={
        <ButtonLink href="/" look="primary">
          Back to my first screen
        </ButtonLink>
      }
    >
      The page or record was not found. It may have been taken out of use, or the address is mistyped.
    </Notice>
  );
}
