import { Sheet } from '@/app/_ui/page/sheet';
import { counted } from '@/lib/core/wording/counted';
import { GROUP_WORDS, groupChanges } from '@/lib/core/intervals/change-groups';
import { AcceptGroup } from './accept-group';
import { ChangeRow, type ChangeShown } from './change-row';

type Change = ChangeShown & { evidence: { [figure: string]: unknown } };

/** What waits for the owner: the unusual one by one, the rest by what moved it, a group at a time. */
export function ChangeGroups({ changes, mayDecide }: { changes: Change[]; mayDecide: boolean }) {
  const { groups, odd } = groupChanges(changes);
  return (
    <>
      {odd.length > 0 ? (
        <Sheet title={`${odd.length} to look at one by one`}>
          <ul className="flex flex-col">
            {odd.map(({ change, why }) => (
              <ChangeRow key={change.id} change={change} mayDecide={mayDecide} aside={why} />
            ))}
          </ul>
        </Sheet>
      ) : null}
      {groups.map((g) => (
        <Sheet
          key={g.key}
          title={`${g.kind}, ${GROUP_WORDS[g.why]}`}
          aside={
            <span className="text-sm text-soft">
              {counted(g.changes.length, 'task')}, in the middle {g.fromWeeks} to {g.toWeeks} weeks
            </span>
          }
        >
          {mayDecide ? (
            <AcceptGroup ids={g.changes.map((c) => c.id)} label={g.changes.length === 1 ? 'Keep it' : `Keep all ${g.changes.length}`} />
          ) : null}
          <details className="mt-3">
            <summary className="font-bold text-cold">{g.changes.length === 1 ? 'The reason' : 'Each of them, with its reason'}</summary>
            <ul className="mt-3 flex flex-col">
              {g.changes.map((c) => (
                <ChangeRow key={c.id} change={c} mayDecide={mayDecide} />
              ))}
            </ul>
          </details>
        </Sheet>
      ))}
    </>
  );
}
