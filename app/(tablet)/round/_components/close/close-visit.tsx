import { timeAt } from '@/lib/core/calendar/at-offset';
import { State } from '@/app/_ui/state';
import { counted } from '@/lib/core/wording/counted';
import { missingToClose, type VisitOnFile } from '@/lib/core/tablet';
import { go, to } from '../../_lib/use-place';
import { useWrite } from '../../_lib/use-write';
import { Card, TouchButton } from '../touch';
import { Signature } from './signature';

/** What is still missing, the signature, and the closing itself. The office checks the same things again. */
export function CloseVisit({ visit }: { visit: VisitOnFile }) {
  const { write, busy, now } = useWrite(visit.id);
  const missing = missingToClose(visit);
  const first = missing.filter((m) => m.code !== 'no_signature');
  const done = visit.tasks.filter((t) => t.outcome === 'done').length;
  const notDone = visit.tasks.filter((t) => t.outcome === 'not_done');
  const close = async () => {
    if (await write('visit.close', { leftAt: now(), taskIds: visit.tasks.map((t) => t.taskId) })) go(to.visit(visit.id));
  };
  return (
    <div className="flex flex-col gap-4">
      <h1>Close the visit to {visit.kitchen.name}</h1>
      {first.length > 0 ? (
        <Card title="Before you leave">
          <ul className="flex flex-col divide-y divide-line">
            {first.map((m) => (
              <li key={`${m.code} ${m.taskId ?? ''}`}>
                <a
                  href={m.unitId ? to.unit(visit.id, m.unitId) : to.visit(visit.id)}
                  className="flex min-h-14 items-center justify-between gap-3 py-2 text-ink no-underline"
                >
                  <span>{m.words}</span>
                  <State shape={m.code === 'low_side' ? 'late' : 'ask'} tone="alarm">
                    Go there
                  </State>
                </a>
              </li>
            ))}
          </ul>
        </Card>
      ) : null}
      <Card title="What was done">
        <p>
          {done} of {counted(visit.tasks.length, 'task')} done{notDone.length > 0 ? `, ${notDone.length} left undone with a reason` : ''}.{' '}
          {counted(visit.entries.parts.length, 'part')} used. {counted(visit.entries.followUps.length, 'follow-up')} wanted.
        </p>
        {visit.entries.arrivedAt ? (
          <p className="text-soft">
            In {timeAt(Date.parse(visit.entries.arrivedAt), visit.kitchen.utcOffsetMinutes)}; out is set as you close.
          </p>
        ) : null}
      </Card>
      <Signature visit={visit} />
      <TouchButton look="primary" disabled={busy || missing.length > 0 || visit.status === 'done'} onClick={() => void close()}>
        {visit.status === 'done' ? 'Closed' : 'Close the visit and leave'}
      </TouchButton>
      {missing.length > 0 ? (
        <p className="text-soft">{missing.length === 1 ? missing[0]?.words : `${missing.length} things are still open, listed above.`}</p>
      ) : null}
    </div>
  );
}
