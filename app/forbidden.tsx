import { ButtonLink } from './_ui/button';

export default function Forbidden() {
  return (
    <main className="mx-auto max-w-xl px-5 py-16">
      <h1>Not for this sign-in</h1>
      <p className="my-4 text-soft">Your role does not open this page. The shop&rsquo;s owner decides who sees what, under People.</p>
      <ButtonLink href="/" look="primary">Back to my first screen</ButtonLink>
    </main>
  );
}
