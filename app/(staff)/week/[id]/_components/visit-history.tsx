import { Sheet } from '@/app/_ui/page/sheet';
import { momentIn } from '@/lib/core/calendar/when';
import { VISIT_EVENT_LABEL, type VisitEventKind } from '@/lib/core/visits/events';

type Event = { id: string; kind: VisitEventKind; by: string; at: number; reason: string };

export function VisitHistory({ events, timeZone }: { events: readonly Event[]; timeZone: string }) {
  return (
    <Sheet title="History">
      <ol className="flex flex-col gap-2">
        {events.map((e) => (
          <li key={e.id}>
            <span className="font-bold">{VISIT_EVENT_LABEL[e.kind]}</span> by {e.by}
            <span className="block text-sm text-soft">
              {momentIn(e.at, timeZone)}
              {e.reason ? `: ${e.reason}` : ''}
            </span>
          </li>
        ))}
      </ol>
    </Sheet>
  );
}
