import type { ComponentProps } from 'react';

const joined = (...names: string[]) => names.filter(Boolean).join(' ');

type TableProps = ComponentProps<'table'> & {
  label: string;
  /** On a phone each row is a block, its cells under one another, named by their `label`. */ stack?: boolean;
};

/** A table that scrolls inside its own frame on narrow screens and can be reached by keyboard. */
export function Table({ label, stack = false, className = '', children, ...rest }: TableProps) {
  return (
    // relative: words for readers alone stay inside the frame.
    <div className="relative overflow-x-auto" tabIndex={0} role="region" aria-label={label}>
      <table className={joined('w-full text-left', stack ? 'stack' : '', className)} {...rest}>
        {children}
      </table>
    </div>
  );
}

/** Their look stands in the style sheet: a page has hundreds. */
export const Th = ({ className = '', ...rest }: ComponentProps<'th'>) => (
  <th scope="col" className={joined('cell-head', className)} {...rest} />
);
export const Td = ({ className = '', label, ...rest }: ComponentProps<'td'> & { label?: string }) => (
  <td data-label={label} className={joined('cell', className)} {...rest} />
);
