import type { ReactNode } from 'react';

/** One number of the shop, with what it is made of folded under it. */
export function NumberOf({ title, figure, made, children }: { title: string; figure: ReactNode; made: ReactNode; children?: ReactNode }) {
  return (
    <div className="border-b border-line py-4 first:pt-0 last:border-0 last:pb-0">
      <h3 className="text-sm font-bold text-soft">{title}</h3>
      <div className="mt-0.5 text-2xl leading-tight font-bold tracking-tight [&_span]:font-normal [&_span]:text-lg">{figure}</div>
      {children ? <div className="mt-1 text-sm">{children}</div> : null}
      <Whence>{made}</Whence>
    </div>
  );
}

/** What a figure is made of, folded under it. */
export function Whence({ children }: { children: ReactNode }) {
  return (
    <details className="mt-2 text-sm text-soft no-print">
      <summary className="font-bold text-cold">Where it comes from</summary>
      <p className="mt-1 max-w-[70ch]">{children}</p>
    </details>
  );
}

export const NOT_YET = <span className="text-soft">not enough visits yet</span>;
