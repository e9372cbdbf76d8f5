import { Table, Td, Th } from '@/app/_ui/tables/table';
import { OVERDUE_AGES, type OverdueAge, type OverdueReason, type OverdueTable as Rows } from '@/lib/core/owner/overdue';

const REASON: Record<OverdueReason, string> = {
  booked: 'On a visit already',
  other_time: 'The kitchen asked for another time',
  skill: 'Nobody at work has the skill',
  hours: 'The kitchen’s hours meet nobody’s shift',
  no_answer: 'Nobody was there at the last visit',
  nobody_booked: 'Nobody has booked it',
};
const AGE: Record<OverdueAge, string> = { week: 'up to a week', month: 'up to 30 days', quarter: 'up to 90 days', older: 'longer' };

/** Overdue tasks by why and by how long. */
export function OverdueTable({ rows }: { rows: Rows }) {
  return (
    <Table label="Overdue tasks by reason and age">
      <thead>
        <tr>
          <Th>Why</Th>
          {OVERDUE_AGES.map((a) => (
            <Th key={a} className="text-right">
              {AGE[a]}
            </Th>
          ))}
          <Th className="text-right">All</Th>
        </tr>
      </thead>
      <tbody>
        {rows.map((r) => (
          <tr key={r.reason}>
            <Td>{REASON[r.reason]}</Td>
            {OVERDUE_AGES.map((a) => (
              <Td key={a} className="text-right">
                {r.by[a] || ''}
              </Td>
            ))}
            <Td className="text-right font-bold">{r.total}</Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
