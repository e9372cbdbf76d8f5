import { ENTRY_LABEL } from '@/lib/core/tablet';
import { leaveOnPurpose } from '../_lib/leave-on-purpose';
import { useSnapshot, useTablet } from '../_lib/tablet-context';
import { unsentWords } from '../_lib/unsent-words';
import { to } from '../_lib/use-place';
import { EntryMark } from './entry-mark';
import { LeaveTablet } from './leave-tablet';
import { OfficeAnswers } from './office-answers';
import { LostPictures } from './lost-pictures';
import { moment } from './top-bar';
import { Card, Chip, TouchButton, TouchLink } from './touch';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

const LINE = {
  idle: 'Nothing to send.',
  sending: 'Sending now.',
  offline: 'No signal. Everything is kept here and goes by itself once there is.',
  signed_out: 'Sign in again to send.',
  failed: 'The last try failed; it will be tried again.',
} as const;

/** Everything this tablet has not yet handed over, and what the office said. */
export function EntriesPage() {
  const s = useSnapshot((s) => s);
  const tablet = useTablet();
  const waiting = [...s.entries.values()].filter((k) => k.waiting).sort((a, b) => a.seq - b.seq);
  const unsent = unsentWords({ entries: waiting.length, pictures: s.photos.length });
  const place = (id: string) => {
    const visit = s.visits.find((v) => v.id === id);
    return visit ? fullKitchenName(visit.kitchen) : '';
  };
  return (
    <div className="flex flex-col gap-4">
      <h1>On this tablet</h1>
      <LostPictures />
      <OfficeAnswers />
      <Card title={unsent ? `${unsent} not yet in the office` : 'Everything is in the office'}>
        <p className="text-soft">
          {s.line === 'idle' && unsent ? 'What is listed here is still to go.' : LINE[s.line]}{' '}
          {s.refreshedAt ? `Last refreshed ${moment(s.refreshedAt)}.` : ''}
        </p>
        <div className="my-3 flex flex-wrap gap-2">
          {s.line === 'signed_out' ? (
            <TouchLink href={to.signIn} look="primary" onClick={leaveOnPurpose}>
              Sign in again
            </TouchLink>
          ) : null}
          <TouchButton
            look={s.line === 'signed_out' ? 'plain' : 'primary'}
            disabled={s.line === 'sending'}
            onClick={() => void tablet.sync()}
          >
            {s.line === 'sending' ? 'Sending …' : 'Send and refresh now'}
          </TouchButton>
        </div>
        <ul className="flex flex-col divide-y divide-line">
          {waiting.map((k) => (
            <li key={k.id} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
              <span>
                <b>{ENTRY_LABEL[k.entry.kind]}</b>{' '}
                <span className="text-soft">
                  {place(k.visitId)}, {moment(k.entry.madeAt)}
                </span>
              </span>
              <EntryMark id={k.id} />
            </li>
          ))}
          {s.photos.map((p) => (
            <li key={`photo ${p.id}`} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
              <span>
                <b>Picture</b> <span className="text-soft">{place(p.visitId)}</span>
              </span>
              {p.problem ? (
                <span className="flex flex-wrap items-center gap-2">
                  {p.problem}
                  <Chip onClick={() => void tablet.tryPicture(p.id)}>Try again</Chip>
                </span>
              ) : (
                <span>On this tablet</span>
              )}
            </li>
          ))}
        </ul>
      </Card>
      <p className="text-soft">
        {s.persisted === false
          ? 'This browser may clear its storage when the tablet is very full. Install Rimebook on the home screen, and send often.'
          : s.persisted
            ? 'The browser has promised to keep this storage.'
            : ''}
      </p>
      <LeaveTablet />
    </div>
  );
}
