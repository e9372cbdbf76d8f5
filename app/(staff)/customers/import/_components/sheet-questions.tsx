import { counted } from '@/lib/core/wording/counted';
import { KIND_OPTIONS, PLACEMENT_OPTIONS, refrigerantOptions, type Option, type Question, type ValueGroup } from '@/lib/core/sheet';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { Sheet } from '@/app/_ui/page/sheet';
import { Choose } from './choose';

const OPTIONS: Record<string, Option[]> = {
  kind: KIND_OPTIONS,
  placement: PLACEMENT_OPTIONS,
  refrigerant: refrigerantOptions(FILED_REFRIGERANTS.map((r) => r.id)),
};
const ASKS: Record<string, string> = {
  kind: 'What kind of unit is',
  placement: 'Where is',
  refrigerant: 'Which refrigerant is',
};
const NAMES: Record<string, string> = { kind: 'Kinds of unit', placement: 'Where units stand', refrigerant: 'Refrigerants' };
const groupOf = (target: string): 'kind' | 'placement' | 'refrigerant' =>
  target === 'kind' || target === 'placement' ? target : 'refrigerant';

/** What nobody but the shop can tell, each asked once for all its rows. */
export function SheetQuestions({ runId, questions, groups }: { runId: string; questions: Question[]; groups: ValueGroup[] }) {
  const asked = questions.filter((q) => q.open);
  const unclear = groups.filter((g) => g.open);
  const n = asked.length + unclear.length;
  if (n === 0) return null;
  return (
    <Sheet title={`${counted(n, 'thing')} to decide`} aside={<span className="text-soft">Kept for the next sheet of this form</span>}>
      <ul className="grid grid-cols-1 gap-5 lg:grid-cols-2">
        {asked.map((q) => (
          <li key={q.id}>
            <Choose runId={runId} of="answer" about={q.id} value={q.answer} options={q.options} label={q.words} />
            <p className="mt-1 text-sm text-soft">
              {counted(q.rows, 'row')}
              {q.examples.length ? `: ${q.examples.join(' · ')}` : ''}
            </p>
          </li>
        ))}
        {unclear.map((g) => (
          <li key={`${g.target} ${g.key}`}>
            <Choose
              runId={runId}
              of={groupOf(g.target)}
              about={g.key}
              value=""
              options={OPTIONS[g.target] ?? []}
              label={`${ASKS[g.target] ?? 'What is'} “${g.value}”?`}
            />
            <p className="mt-1 text-sm text-soft">{counted(g.rows, 'row')}</p>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

/** What was understood without asking, to be put right. */
export function SheetValues({ runId, questions, groups }: { runId: string; questions: Question[]; groups: ValueGroup[] }) {
  const settled = questions.filter((q) => !q.open);
  return (
    <Sheet title="Understood">
      {['kind', 'placement', 'refrigerant'].map((target) => {
        const mine = groups.filter((g) => g.target === target && !g.open);
        if (mine.length === 0) return null;
        return (
          <details key={target} className="border-b border-line py-2">
            <summary>
              <span className="font-bold">{NAMES[target]}</span>: {counted(mine.length, 'spelling')}
            </summary>
            <ul className="mt-3 grid grid-cols-1 gap-3 sm:grid-cols-2 lg:grid-cols-3">
              {mine.map((g) => (
                <li key={g.key}>
                  <Choose
                    runId={runId}
                    of={groupOf(target)}
                    about={g.key}
                    value={g.taken}
                    options={OPTIONS[target] ?? []}
                    label={`“${g.value}” ×${g.rows}`}
                  />
                </li>
              ))}
            </ul>
          </details>
        );
      })}
      {settled.length > 0 ? (
        <details className="py-2">
          <summary>
            <span className="font-bold">Answers</span>: {settled.length}
          </summary>
          <ul className="mt-3 grid grid-cols-1 gap-3 sm:grid-cols-2">
            {settled.map((q) => (
              <li key={q.id}>
                <Choose runId={runId} of="answer" about={q.id} value={q.answer} options={q.options} label={q.words} />
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </Sheet>
  );
}
