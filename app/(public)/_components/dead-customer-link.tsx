import { wordsIn } from '@/lib/core/customer-words';

/** A customer's link that does not open, the same whatever is wrong with it, in both languages: whose it was is not known. */
export function DeadCustomerLink() {
  const { deadLink } = wordsIn('en');
  return (
    <main className="mx-auto max-w-xl px-5 py-16">
      <h1>{deadLink.title}</h1>
      <p className="mt-4 text-soft">{deadLink.text}</p>
      <p lang="es" className="mt-4 text-soft">
        {wordsIn('es').deadLink.text}
      </p>
    </main>
  );
}
