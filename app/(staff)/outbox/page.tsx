import type { Metadata } from 'next';
import { definePage } from '@/lib/server/define-page';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { Empty, PageHead } from '../../_ui/sheet';
import { State, type Shape } from '../../_ui/state';
import { dayIn, timeIn } from '../../_ui/when';

export const metadata: Metadata = { title: 'Outbox' };

const STATE: Record<string, { word: string; shape: Shape; tone: 'alarm' | 'soft' | 'cold' }> = {
  queued: { word: 'Waiting to go', shape: 'later', tone: 'cold' },
  sent: { word: 'Sent', shape: 'done', tone: 'soft' },
  failed: { word: 'Not delivered', shape: 'off', tone: 'alarm' },
  held: { word: 'Held: no mail server is set', shape: 'held', tone: 'soft' },
  overtaken: { word: 'Not sent: no longer true', shape: 'off', tone: 'soft' },
};

export default definePage('read:messages', async ({ db }) => {
  const [messages, zone] = await Promise.all([db.outboxMessage.findMany({ orderBy: { createdAt: 'desc' }, take: 100 }), shopTimeZone(db)]);
  return (
    <>
      <PageHead
        title="Outbox"
        lead="Every message to a kitchen, newest first. Without a mail server they wait here and can be read out over the phone."
      />
      {messages.length === 0 ? <Empty>No message yet. Booking, moving or cancelling a visit writes to the kitchen’s contact.</Empty> : null}
      <ul className="flex flex-col gap-3">
        {messages.map((m) => {
          const s = STATE[m.status]!;
          return (
            <li key={m.id} className="rounded-lg border border-line bg-sheet p-4">
              <details>
                <summary className="flex flex-wrap items-baseline gap-x-4 gap-y-1">
                  <span className="font-bold">{m.subject}</span>
                  <span className="text-soft">{m.toEmail}</span>
                  <span className="ml-auto text-sm text-soft">
                    {dayIn(m.createdAt.getTime(), zone)}, {timeIn(m.createdAt.getTime(), zone)}
                  </span>
                  <State shape={s.shape} tone={s.tone}>
                    {s.word}
                  </State>
                </summary>
                {m.status === 'overtaken' ? <p className="mt-2">{m.error}</p> : null}
                {m.error && m.status !== 'held' && m.status !== 'overtaken' ? (
                  <p className="mt-2 text-alarm">The mail server said: {m.error}</p>
                ) : null}
                <pre className="mt-3 overflow-x-auto whitespace-pre-wrap font-sans">{m.text}</pre>
                {m.ics ? (
                  <p className="mt-2 text-sm text-soft">With a calendar {m.icsMethod === 'CANCEL' ? 'cancellation' : 'invitation'}.</p>
                ) : null}
              </details>
            </li>
          );
        })}
      </ul>
    </>
  );
});
