/** A link that does not open, and why. */
export const DeadLink = ({ why }: { why: string }) => (
  <main className="mx-auto max-w-xl px-5 py-16">
    <h1>This link does not open</h1>
    <p className="mt-4 text-soft">{why}</p>
  </main>
);
