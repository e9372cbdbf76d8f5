import { useState, type ComponentProps, type ReactNode } from 'react';
import { BUTTON, LOOK, SIZE, type Looks } from '@/app/_ui/buttons/button-look';
import { useWide } from '../_lib/use-wide';

/** A primary action: at least 60 px high, for a gloved thumb. */
export function TouchButton({ look = 'plain', className = '', ...rest }: ComponentProps<'button'> & Pick<Looks, 'look'>) {
  return <button type="button" className={`${BUTTON} ${LOOK[look]} ${SIZE.touch} ${className}`} {...rest} />;
}

export const TouchLink = ({ look = 'plain', className = '', ...rest }: ComponentProps<'a'> & Pick<Looks, 'look'>) => (
  <a className={`${BUTTON} ${LOOK[look]} ${SIZE.touch} ${className}`} {...rest} />
);

const CHIP = 'inline-flex min-h-12 min-w-12 items-center justify-center gap-2 rounded-md border px-4 py-2 font-bold no-underline';

/** A smaller choice, still 48 px. */
export function Chip({ on = false, className = '', ...rest }: ComponentProps<'button'> & { on?: boolean }) {
  return (
    <button
      type="button"
      aria-pressed={on}
      className={`${CHIP} ${on ? 'border-cold bg-cold text-on-cold' : 'border-edge bg-sheet text-ink'} ${className}`}
      {...rest}
    />
  );
}

export const ChipLink = ({ className = '', ...rest }: ComponentProps<'a'>) => (
  <a className={`${CHIP} border-edge bg-sheet text-ink ${className}`} {...rest} />
);

/** What is out of sight costs no layout and no paint. */
const OFF_SCREEN = '[content-visibility:auto] [contain-intrinsic-size:auto_14rem]';

/** What is scrolled to stands clear of the bar at the top, trouble told in it included. */
const BELOW_THE_BAR = 'scroll-mt-28 max-sm:scroll-mt-48';

export function Card({
  title,
  aside,
  children,
  id,
  className = '',
}: {
  title?: ReactNode;
  aside?: ReactNode;
  children: ReactNode;
  id?: string;
  className?: string;
}) {
  return (
    <section id={id} className={`${OFF_SCREEN} ${BELOW_THE_BAR} rounded-lg border border-edge bg-sheet p-2.5 sm:p-5 ${className}`}>
      {title ? (
        <div className="mb-1.5 flex flex-wrap items-baseline sm:mb-3 justify-between gap-x-3 gap-y-1">
          <h2>{title}</h2>
          {aside}
        </div>
      ) : null}
      {children}
    </section>
  );
}

/** Folded away until wanted; what is inside is not drawn before. */
export function Fold({
  summary,
  short = summary,
  aside,
  open = false,
  children,
}: {
  summary: ReactNode;
  /** In fewer words, where several stand on one line of a phone. */
  short?: ReactNode;
  aside?: ReactNode;
  open?: boolean;
  children: ReactNode;
}) {
  const wide = useWide();
  const [wanted, setWanted] = useState(open);
  return (
    <details
      className="rounded-lg border border-edge bg-sheet open:col-span-full"
      open={open || undefined}
      onToggle={(e) => e.currentTarget.open && setWanted(true)}
    >
      <summary className="flex min-h-12 items-center justify-between gap-3 px-2.5 font-bold leading-tight sm:min-h-14 sm:px-4">
        {wide ? summary : short}
        {aside && (wide || short === summary) ? <span className="text-sm font-normal text-soft">{aside}</span> : null}
      </summary>
      {wanted || open ? children : null}
    </details>
  );
}

/** Folds beside one another on a phone; an open one takes the whole line. */
export const Folds = ({ children }: { children: ReactNode }) => (
  <div className="grid grid-cols-2 gap-2 sm:grid-cols-1 sm:gap-3">{children}</div>
);

const BOX = 'w-full rounded-md border border-edge bg-sheet px-3 py-3 min-h-12 text-ink';

export function TouchField({ label, id, ...rest }: ComponentProps<'input'> & { label: string; id: string }) {
  return (
    <div className="flex flex-col gap-1">
      <label htmlFor={id} className="font-bold">
        {label}
      </label>
      <input id={id} className={BOX} autoComplete="off" {...rest} />
    </div>
  );
}

export function TouchSelect({
  label,
  id,
  options,
  beside = false,
  ...rest
}: ComponentProps<'select'> & {
  label: string;
  id: string;
  options: readonly { value: string; label: string }[];
  /** The label on the same line, where height is dear. */
  beside?: boolean;
}) {
  return (
    <div className={beside ? 'flex items-center gap-2 [&>select]:min-w-0 [&>select]:flex-1' : 'flex flex-col gap-1'}>
      <label htmlFor={id} className="font-bold">
        {label}
      </label>
      <select id={id} className={BOX} {...rest}>
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.label}
          </option>
        ))}
      </select>
    </div>
  );
}
