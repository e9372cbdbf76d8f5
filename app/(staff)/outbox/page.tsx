import type { Metadata } from 'next';
import { definePage } from '@/lib/server/doors/define-page';
import { changesOfEach } from '@/lib/features/audit/reads/audit';
import { recentMessages } from '@/lib/features/mail/reads/messages';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { Empty, PageHead } from '@/app/_ui/page/sheet';
import { State, type Mark } from '@/app/_ui/states/state';
import { momentIn } from '@/lib/core/calendar/when';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { DecideForm } from './_components/decide-form';

export const metadata: Metadata = { title: 'Outbox' };

const STATE = {
  queued: { label: 'Waiting to go', shape: 'later', tone: 'cold' },
  sent: { label: 'Sent', shape: 'done', tone: 'soft' },
  failed: { label: 'Not delivered', shape: 'off', tone: 'alarm' },
  held: { label: 'Held: no mail server is set', shape: 'held', tone: 'soft' },
  sending: { label: 'On its way', shape: 'later', tone: 'cold' },
  unknown: { label: 'Not known whether it arrived', shape: 'off', tone: 'alarm' },
  left: { label: 'Left as it is', shape: 'off', tone: 'soft' },
  overtaken: { label: 'Not sent: no longer true', shape: 'off', tone: 'soft' },
} satisfies Record<string, Mark>;

export default definePage('read:messages', async ({ db }) => {
  const [messages, zone] = await Promise.all([recentMessages(db), shopTimeZone(db)]);
  const changes = await changesOfEach(
    db,
    'OutboxMessage',
    messages.map((m) => m.id),
  );
  return (
    <>
      <PageHead
        title="Outbox"
        lead="Every message to a kitchen or a colleague, newest first. Without a mail server they wait here and can be read out over the phone."
      />
      {messages.length === 0 ? <Empty>No message yet. Booking, moving or cancelling a visit writes to the kitchen’s contact.</Empty> : null}
      <ul className="flex flex-col gap-3">
        {messages.map((m) => {
          const s = STATE[m.status];
          const open = m.status === 'unknown' || m.status === 'failed';
          return (
            <li key={m.id} className="rounded-lg border border-line bg-sheet p-4">
              <details open={open}>
                <summary className="flex flex-wrap items-baseline gap-x-4 gap-y-1">
                  <span id={`message-${m.id}`} className="font-bold">
                    {m.subject}
                  </span>
                  <span className="text-soft">{m.toEmail}</span>
                  <span className="ml-auto text-sm text-soft">{momentIn(m.createdAt.getTime(), zone)}</span>
                  <State shape={s.shape} tone={s.tone}>
                    {s.label}
                  </State>
                </summary>
                {m.status === 'overtaken' || m.status === 'left' ? <p className="mt-2">{m.error}</p> : null}
                {m.status === 'unknown' ? (
                  <p className="mt-2">{m.error} Sent again it may arrive twice; left, perhaps not at all. Ask the kitchen if in doubt.</p>
                ) : null}
                {open ? <DecideForm messageId={m.id} about={`message-${m.id}`} /> : null}
                {m.error && (m.status === 'queued' || m.status === 'failed') ? (
                  <p className="mt-2 text-alarm">The mail server said: {m.error}</p>
                ) : null}
                <pre className="mt-3 overflow-x-auto whitespace-pre-wrap font-sans">{m.text}</pre>
                {m.ics ? (
                  <p className="mt-2 text-sm text-soft">With a calendar {m.icsMethod === 'CANCEL' ? 'cancellation' : 'invitation'}.</p>
                ) : null}
                <ChangeHistory changes={changes.get(m.id) ?? []} timeZone={zone} />
              </details>
            </li>
          );
        })}
      </ul>
    </>
  );
});
