import { connection } from 'next/server';
import { NothingOnFile } from '@/app/_ui/feedback/dead-ends';

export default async function NotFound() {
  // Drawn anew each time: its scripts carry the nonce of the request.
  await connection();
  return (
    <main className="px-5">
      <NothingOnFile />
    </main>
  );
}
