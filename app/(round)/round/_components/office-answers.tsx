import { OPERATION_LABEL } from '@/lib/core/round';
import { useSnapshot, useTablet } from '../_lib/tablet-context';
import { Chip } from './touch';

/** What the office said about entries that met with something: a question, or not taken. */
export function OfficeAnswers({ visitId }: { visitId?: string }) {
  const operations = useSnapshot((s) => s.operations);
  const tablet = useTablet();
  const answers = [...operations.values()].filter(
    (k) => (!visitId || k.visitId === visitId) && !k.waiting && !k.seen && (k.outcome === 'rejected' || k.outcome === 'conflict') && k.note,
  );
  if (answers.length === 0) return null;
  return (
    <section aria-label="What the office said" className="flex flex-col gap-2">
      {answers.map((k) => (
        <div
          key={k.id}
          role="status"
          className="flex flex-wrap items-center justify-between gap-3 rounded-md border-2 border-alarm bg-alarm-wash px-4 py-2"
        >
          <p className="min-w-0 flex-1">
            <b className="text-alarm">
              {OPERATION_LABEL[k.op.kind]}: {k.outcome === 'rejected' ? 'not taken by the office.' : 'in the office, with a question.'}
            </b>{' '}
            {k.note}
          </p>
          <Chip onClick={() => void tablet.markSeen(k.id)}>Read</Chip>
        </div>
      ))}
    </section>
  );
}
