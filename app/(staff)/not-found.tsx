import { ButtonLink } from '../_ui/button';
import { Notice } from '../_ui/notice';

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
