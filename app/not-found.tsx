import { ButtonLink } from './_ui/button';

export default function NotFound() {
  return (
    <main className="mx-auto max-w-xl px-5 py-16">
      <h1>Nothing on file here</h1>
      <p className="my-4 text-soft">The page or record was not found. It may have been archived, or the address is mistyped.</p>
      <ButtonLink href="/" look="primary">Back to my first screen</ButtonLink>
    </main>
  );
}
