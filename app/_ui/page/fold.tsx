'use client';

import { useEffect, useRef, type ReactNode } from 'react';

/** A part of a page that is folded away, and opens by itself when an address names it. */
export function Fold({ id, title, aside, children }: { id: string; title: string; aside?: ReactNode; children: ReactNode }) {
  const box = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    const open = () => {
      if (window.location.hash !== `#${id}` || !box.current) return;
      box.current.open = true;
      box.current.scrollIntoView();
    };
    open();
    window.addEventListener('hashchange', open);
    return () => window.removeEventListener('hashchange', open);
  }, [id]);
  return (
    <details ref={box} id={id} className="group scroll-mt-4 rounded-lg border border-line bg-sheet open:bg-paper">
      <summary className="flex min-h-12 flex-wrap items-center justify-between gap-x-4 px-4 py-2 sm:px-5">
        <h2 className="text-base">
          <span
            aria-hidden="true"
            className="mr-2 inline-block text-soft transition-transform group-open:rotate-90 motion-reduce:transition-none"
          >
            ▸
          </span>
          {title}
        </h2>
        {aside ? <span className="text-sm text-soft">{aside}</span> : null}
      </summary>
      <div className="border-t border-line p-4 sm:p-5">{children}</div>
    </details>
  );
}
