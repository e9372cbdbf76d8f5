import { OthersUnsent } from './others-unsent';
import { TouchButton, TouchLink } from './touch';
import { useTablet, useSnapshot } from '../_lib/tablet-context';
import { to } from '../_lib/use-place';

/** What stands before the round when there is no round to show. */

export const Starting = () => <p className="py-16 text-center text-soft">Opening the round …</p>;

export function SignIn() {
  const lineWords = useSnapshot((s) => s.lineWords);
  return (
    <section className="mx-auto max-w-md py-12">
      <h1>Sign in to fetch your round</h1>
      <p className="my-4 text-soft">
        {lineWords || 'Your visits, the units and their history come onto this tablet and stay there without signal.'}
      </p>
      <TouchLink href={to.signIn} look="primary">
        Sign in
      </TouchLink>
      <div className="mt-6 flex flex-col gap-3">
        <OthersUnsent />
      </div>
    </section>
  );
}

export function NoRound() {
  const tablet = useTablet();
  const lineWords = useSnapshot((s) => s.lineWords);
  return (
    <section className="mx-auto max-w-md py-12">
      <h1>No round on this tablet yet</h1>
      <p className="my-4 text-soft">{lineWords} Once it has been fetched with signal, everything works without.</p>
      <TouchButton look="primary" onClick={() => void tablet.sync()}>
        Try again
      </TouchButton>
    </section>
  );
}

export function StorageRefused() {
  const trouble = useSnapshot((s) => s.trouble);
  return (
    <section className="mx-auto max-w-md py-12">
      <h1>Nothing can be kept here</h1>
      <p className="my-4">{trouble?.message}</p>
      <p className="text-soft">Until then the office can still be reached by phone; write findings on paper rather than lose them.</p>
    </section>
  );
}
