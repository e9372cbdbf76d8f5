import type { ReactNode } from 'react';
import { Button } from '../buttons/button';
import { Saved } from '../feedback/saved';

/** What a form sends along unseen: the record it is about, and the version it was opened at. */
export const Hidden = ({ of }: { of: Record<string, string | number | undefined> }) => (
  <>
    {Object.entries(of).map(([name, value]) => (
      <input key={name} type="hidden" name={name} value={value} />
    ))}
  </>
);

type RowProps = {
  busy: boolean;
  label: ReactNode;
  /** Stands on the button while it is sent. */
  sending?: string;
  look?: 'primary' | 'plain' | 'danger';
  /** Said once it was taken, where the page stays. */
  saved?: boolean;
  said?: ReactNode;
  /** Ways out of the form, and words beside the button. */
  children?: ReactNode;
};

/** The last row of a form: what sends it, and what came of that. */
export function SaveRow({ busy, label, sending = 'Saving …', look = 'primary', saved, said, children }: RowProps) {
  return (
    <div className="flex flex-wrap items-center gap-3">
      <Button look={look} type="submit" disabled={busy}>
        {busy ? sending : label}
      </Button>
      {children}
      {saved === undefined ? null : <Saved when={saved}>{said}</Saved>}
    </div>
  );
}
