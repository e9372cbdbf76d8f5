import { connection } from 'next/server';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Notice } from '@/app/_ui/feedback/notice';

export default async function NotFound() {
  // Drawn anew each time: its scripts carry the nonce of the request.
  await connection();
  return (
    <main className="px-5">
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
    </main>
  );
}
