import { NotForThisSignIn } from '@/app/_ui/feedback/dead-ends';

export default function Forbidden() {
  return (
    <main className="px-5">
      <NotForThisSignIn />
    </main>
  );
}
