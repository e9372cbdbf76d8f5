import type { ComponentProps, ReactNode } from 'react';

/** A checkbox with its words; the whole line is the target. */
export function Check({
  label,
  hint,
  className = '',
  ...rest
}: { label: ReactNode; hint?: ReactNode } & Omit<ComponentProps<'input'>, 'type'>) {
  return (
    <label className={`flex min-h-9 items-start gap-3 ${className}`}>
      <input type="checkbox" className="mt-1 size-5 shrink-0 accent-[var(--cold)]" {...rest} />
      <span>
        <span className="font-bold">{label}</span>
        {hint ? <span className="block text-sm text-soft">{hint}</span> : null}
      </span>
    </label>
  );
}
