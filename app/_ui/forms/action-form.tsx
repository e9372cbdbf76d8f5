'use client';

import { Suspense, type ComponentProps, type RefObject } from 'react';
import { Button } from '../buttons/button';
import { useKeptWords, type Keeper } from './use-kept-words';

type Props = Omit<ComponentProps<'form'>, 'ref'> & {
  ref: RefObject<HTMLFormElement | null>;
  keeper: RefObject<Keeper | null>;
  signedOut: boolean;
};

/** The form of `useActionForm`. What is typed into it and not saved is back when it is opened again. */
export function ActionForm({ ref, keeper, signedOut, children, ...form }: Props) {
  return (
    <form ref={ref} {...form}>
      <Suspense>
        <KeptLine form={ref} keeper={keeper} />
      </Suspense>
      {signedOut ? <SignInAgain /> : null}
      {children}
    </form>
  );
}

function KeptLine({ form, keeper }: { form: Props['ref']; keeper: Props['keeper'] }) {
  const { back, drop } = useKeptWords(form, keeper);
  if (!back) return null;
  return (
    <p role="status" className="w-full text-soft no-print">
      What you had typed is back. {back.changedSince ? 'Somebody has saved this since: compare before you save. ' : null}
      <Button
        look="quiet"
        onClick={() => {
          drop();
          // Begun anew with what is on file. Not a reload: with that the browser would put the words back by itself.
          window.location.replace(window.location.pathname + window.location.search);
        }}
      >
        Drop it
      </Button>
    </p>
  );
}

/** The words are kept, so whoever comes back finds them. */
function SignInAgain() {
  const to = typeof window === 'undefined' ? '/' : window.location.pathname + window.location.search;
  return (
    <p className="w-full">
      <a href={`/sign-in?to=${encodeURIComponent(to)}`} className="font-bold">
        Sign in and come back here
      </a>
      : what you typed is kept, except passwords and files.
    </p>
  );
}

type StateProps<T> = { name: string; value: T; onBack: (value: T) => void };

/** For what a form holds besides its fields, such as how many lines it has: kept and put back with them. */
export function KeptState<T>({ name, value, onBack }: StateProps<T>) {
  return <textarea hidden aria-hidden name={name} value={JSON.stringify(value)} onChange={(e) => onBack(JSON.parse(e.target.value))} />;
}
