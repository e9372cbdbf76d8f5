import Link from 'next/link';
import { Sheet } from '@/app/_ui/page/sheet';

type Outcome = 'planned' | 'done' | 'not_done';
type Props = {
  note: string;
  tasks: readonly { id: string; unitId: string; unit: string; kind: string; outcome: Outcome; reason: string }[];
};

const outcomeWords = (outcome: Outcome, reason: string): string => (outcome === 'not_done' ? `not done: ${reason}` : outcome);

/** What a visit was for, where it can no longer be changed. */
export function VisitTasks({ note, tasks }: Props) {
  return (
    <Sheet title="Tasks">
      {note ? <p className="mb-2 whitespace-pre-line">{note}</p> : null}
      {tasks.length === 0 ? <p className="text-soft">No task of the rules stands on this visit.</p> : null}
      <ul>
        {tasks.map((t) => (
          <li key={t.id} className="flex flex-wrap justify-between gap-x-4 border-b border-line py-1.5 last:border-0">
            <span>
              <Link href={`/units/${t.unitId}`}>{t.unit}</Link> · {t.kind}
            </span>
            <span className="text-soft">{outcomeWords(t.outcome, t.reason)}</span>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
