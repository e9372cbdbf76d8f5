import { momentIn } from '@/lib/core/calendar/when';
import { Sheet } from '../page/sheet';
import { State } from '../states/state';
import type { FormAction } from '../forms/use-action-form';
import { TakeBackForm } from './take-back-form';

type Sent = {
  id: string;
  createdAt: Date;
  toEmail: string;
  sentById: string | null;
  openedAt: Date | null;
  openings: number;
  revokedAt: Date | null;
  expiresAt: Date;
};
type Props = { sent: readonly Sent[]; zone: string; now: Date; takeBack: FormAction<void> };

/** To whom a paper went, whether it was opened, and whether its link still opens. */
export function SentSoFar({ sent, zone, now, takeBack }: Props) {
  const at = (d: Date) => momentIn(d, zone);
  return (
    <Sheet title="Sent so far">
      {sent.length === 0 ? <p className="text-soft">Not sent yet.</p> : null}
      <ul className="flex flex-col gap-3">
        {sent.map((s) => (
          <li key={s.id}>
            <span className="block">
              {at(s.createdAt)}, to {s.toEmail}
              {s.sentById ? '' : ', by itself'}
            </span>
            <State shape={s.openedAt ? 'done' : 'later'} tone="soft">
              {s.openedAt ? `Opened ${s.openings === 1 ? 'once' : `${s.openings} times`}, first ${at(s.openedAt)}` : 'Not opened yet'}
            </State>
            {s.revokedAt ? (
              <span className="block text-soft">Taken back {at(s.revokedAt)}.</span>
            ) : s.expiresAt <= now ? (
              <span className="block text-soft">The link is too old to open.</span>
            ) : (
              <TakeBackForm action={takeBack} id={s.id} whose={at(s.createdAt)} />
            )}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
