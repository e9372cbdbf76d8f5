import type { ComponentProps } from 'react';

type TableProps = ComponentProps<'table'> & {
  label: string;
  /** On a phone each row is a block, its cells under one another, named by their `label`. */ stack?: boolean;
};

/** A table that scrolls inside its own frame on narrow screens and can be reached by keyboard. */
export function Table({ label, stack = false, className = '', children, ...rest }: TableProps) {
  return (
    // relative: words for readers alone stay inside the frame.
    <div className="relative overflow-x-auto" tabIndex={0} role="region" aria-label={label}>
      <table className={`w-full text-left ${stack ? 'stack' : ''} ${className}`} {...rest}>
        {children}
      </table>
    </div>
  );
}

export const Th = ({ className = '', ...rest }: ComponentProps<'th'>) => (
  <th scope="col" className={`border-b-2 border-ink/70 px-2 py-1.5 text-sm font-bold align-bottom ${className}`} {...rest} />
);
export const Td = ({ className = '', label, ...rest }: ComponentProps<'td'> & { label?: string }) => (
  <td data-label={label} className={`border-b border-line px-2 py-2 align-top ${className}`} {...rest} />
);
