import { fromTo } from '@/app/_ui/words/rule-words';
import { Sheet } from '@/app/_ui/page/sheet';
import { dayWords } from '@/lib/core/calendar/when';
import type { VisitReport } from '@/lib/core/tablet/visit-report';

/** How often things are done from now on, where this visit changed it. */
export function RulesChanged({ changes }: { changes: VisitReport['changes'] }) {
  return (
    <Sheet title="Rules changed">
      {changes.length === 0 ? <p className="text-soft">No rule changed by this visit.</p> : null}
      <ul className="flex flex-col gap-3">
        {changes.map((c) => (
          <li key={c.id}>
            <b>
              {c.unit.name}, {c.task.toLowerCase()}
            </b>
            <span className="block">
              {fromTo(c.fromRule, c.toRule)}
              {c.toDueOn ? `, next ${dayWords(c.toDueOn)}` : ''}
            </span>
            <span className="block text-sm text-soft">{c.reason}</span>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
