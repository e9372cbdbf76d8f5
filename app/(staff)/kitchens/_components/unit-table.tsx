import { labelOf } from '@/lib/core/typed/closed-set';
import Link from 'next/link';
import { describeRule, type LocalDate } from '@/lib/core/calendar';
import { PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { DueState } from '@/app/_ui/states/due-state';
import { RefrigerantName } from '@/app/_ui/words/refrigerant-name';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';

type Task = { id: string; label: string; rule: string; dueOn: LocalDate; onVisit: string | null };
type Unit = {
  id: string;
  name: string;
  tag: string;
  kind: string;
  placement: string;
  refrigerant: string;
  make: string;
  model: string;
  archivedAt: Date | null;
  tasks: Task[];
};

export function UnitTable({ units, today, limit }: { units: Unit[]; today: LocalDate; limit: number }) {
  return (
    <Table label="Units">
      <thead>
        <tr>
          <Th>Unit</Th>
          <Th className="max-sm:hidden">Tag</Th>
          <Th className="max-md:hidden">Kind and place</Th>
          <Th className="max-lg:hidden">Refrigerant</Th>
          <Th className="max-sm:hidden">Next</Th>
        </tr>
      </thead>
      <tbody>
        {units.map((u) => (
          <tr key={u.id} className="hover:bg-sunk">
            <Td>
              <Link href={`/units/${u.id}`} className="font-bold">
                {u.name}
              </Link>
              <span className="block text-sm text-soft">{[u.make, u.model].filter(Boolean).join(' ')}</span>
              {/* A phone has room for one column. */}
              <div className="mt-1 sm:hidden">
                <NextOf unit={u} today={today} limit={limit} />
              </div>
            </Td>
            <Td className="max-sm:hidden">{u.tag}</Td>
            <Td className="max-md:hidden">
              {labelOf(UNIT_KIND_LABEL, u.kind)}
              <span className="block text-sm text-soft">{labelOf(PLACEMENT_LABEL, u.placement)}</span>
            </Td>
            <Td className="max-lg:hidden">
              <RefrigerantName id={u.refrigerant} />
            </Td>
            <Td className="max-sm:hidden">
              <NextOf unit={u} today={today} limit={limit} />
            </Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}

/** When each of its tasks comes next. */
function NextOf({ unit: u, today, limit }: { unit: Unit; today: LocalDate; limit: number }) {
  return (
    <>
      {u.archivedAt ? (
        <State shape="off" tone="soft">
          out of use
        </State>
      ) : null}
      {!u.archivedAt && u.tasks.length === 0 ? <span className="text-soft">no tasks</span> : null}
      <ul>
        {u.tasks.map((t) => (
          <li key={t.id} className="flex flex-wrap justify-between gap-x-4" title={describeRule(t.rule)}>
            <span>{t.label}</span>
            {t.onVisit ? (
              <Link href={`/week/${t.onVisit}`} className="inline-flex min-h-6 items-center">
                booked
              </Link>
            ) : (
              <DueState dueOn={t.dueOn} today={today} limit={limit} />
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
