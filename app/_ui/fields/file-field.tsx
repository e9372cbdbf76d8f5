import type { ComponentProps } from 'react';

type Props = { id: string; hint?: string; error?: string[] } & Omit<ComponentProps<'input'>, 'id' | 'type' | 'className'>;

/** A file from the reader's own disk. */
export function FileField({ id, hint, error, ...rest }: Props) {
  return (
    <div className="flex flex-col gap-1">
      <label htmlFor={id} className="font-bold">
        File
      </label>
      <input
        id={id}
        type="file"
        aria-invalid={error ? true : undefined}
        aria-describedby={hint ? `${id}-hint ${id}-error` : undefined}
        className="w-full rounded-md border border-edge bg-sheet p-2 file:mr-3 file:rounded file:border file:border-edge file:bg-paper file:px-3 file:py-1 file:font-bold aria-[invalid=true]:border-2 aria-[invalid=true]:border-alarm"
        {...rest}
      />
      {hint ? (
        <p id={`${id}-hint`} className="text-sm text-soft">
          {hint}
        </p>
      ) : null}
      <p id={`${id}-error`} role="alert" className="text-sm font-bold text-alarm empty:hidden">
        {error?.join(' ')}
      </p>
    </div>
  );
}
