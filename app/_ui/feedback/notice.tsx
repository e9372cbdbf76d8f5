import type { ReactNode } from 'react';

/** A page that has only one thing to say, and the way on. */
export function Notice({ title, children, action }: { title: string; children: ReactNode; action: ReactNode }) {
  return (
    <div className="mx-auto max-w-xl py-12">
      <h1>{title}</h1>
      <p className="my-4 text-soft">{children}</p>
      {action}
    </div>
  );
}
