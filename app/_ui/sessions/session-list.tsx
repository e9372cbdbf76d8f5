'use client';

import { Button } from '../buttons/button';
import { deviceWords } from './device-words';
import { FormErrors } from '../fields/field';
import { State } from '../states/state';
import { ActionForm } from '../forms/action-form';
import { useActionForm, type FormAction } from '../forms/use-action-form';
import { momentIn } from '@/lib/core/calendar/when';

export type SessionLine = { id: string; userAgent: string; createdAt: number; lastSeenAt: number; mine: boolean };
type Props = { sessions: SessionLine[]; timeZone: string; action: FormAction<void>; userId?: string };

function EndOne({
  action,
  userId,
  sessionId,
  label,
  about,
}: {
  action: FormAction<void>;
  userId?: string;
  sessionId?: string;
  label: string;
  /** Which one, for who hears the button alone. */
  about?: string;
}) {
  const { form, error, busy } = useActionForm(action);
  return (
    <ActionForm {...form}>
      <FormErrors errors={error('')} />
      {userId ? <input type="hidden" name="userId" value={userId} /> : null}
      {sessionId ? <input type="hidden" name="sessionId" value={sessionId} /> : null}
      <Button type="submit" disabled={busy} aria-label={about}>
        {label}
      </Button>
    </ActionForm>
  );
}

/** Where a person is signed in, each of which can be ended. */
export function SessionList({ sessions, timeZone, action, userId }: Props) {
  const when = (ms: number) => momentIn(ms, timeZone);
  if (sessions.length === 0) return <p className="text-soft">Not signed in anywhere.</p>;
  return (
    <div className="flex flex-col gap-3">
      <ul>
        {sessions.map((s) => (
          <li key={s.id} className="flex flex-wrap items-center justify-between gap-x-4 gap-y-1 border-b border-line py-2">
            <span>
              {deviceWords(s.userAgent)}
              {s.mine ? (
                <>
                  {' '}
                  <State shape="now" tone="cold">
                    this one
                  </State>
                </>
              ) : null}
              <span className="block text-sm text-soft">
                since {when(s.createdAt)}, last seen {when(s.lastSeenAt)}
              </span>
            </span>
            {s.mine ? null : (
              <EndOne
                action={action}
                userId={userId}
                sessionId={s.id}
                label="End"
                about={`End the session on ${deviceWords(s.userAgent)}, last seen ${when(s.lastSeenAt)}`}
              />
            )}
          </li>
        ))}
      </ul>
      {sessions.filter((s) => !s.mine).length > 1 ? (
        <EndOne action={action} userId={userId} label={sessions.some((s) => s.mine) ? 'End all others' : 'End all'} />
      ) : null}
    </div>
  );
}
