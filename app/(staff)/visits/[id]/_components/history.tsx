import { counted } from '@/lib/core/wording/counted';
import type { VisitReport } from '@/lib/core/tablet/visit-report';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { momentIn } from '@/lib/core/calendar/when';

const OUTCOME = {
  applied: ['done', 'soft', 'filed'],
  conflict: ['ask', 'alarm', 'with a question'],
  rejected: ['late', 'alarm', 'not filed'],
} as const;

/** Every entry in the order it came in, with when it was made: nothing is overwritten. */
export function History({ entries, timeZone }: { entries: VisitReport['entries']; timeZone: string }) {
  const when = (ms: number) => momentIn(ms, timeZone);
  return (
    <Sheet title="Every entry">
      {entries.length === 0 ? (
        <p className="text-soft">No entries from a tablet yet.</p>
      ) : (
        <details>
          <summary className="font-bold">
            {counted(entries.length, 'entry', 'entries')}, {entries.filter((o) => o.outcome !== 'applied').length} with a question
          </summary>
          <Table label="Entries of this visit" className="mt-3">
            <thead>
              <tr>
                <Th>Made</Th>
                <Th>Came in</Th>
                <Th>Entry</Th>
                <Th>By</Th>
                <Th>Tablet</Th>
                <Th>Outcome</Th>
              </tr>
            </thead>
            <tbody>
              {entries.map((o) => {
                const [shape, tone, label] = OUTCOME[o.outcome];
                return (
                  <tr key={o.id}>
                    <Td className="whitespace-nowrap">
                      {when(o.madeAt)}
                      {o.correctedMs ? (
                        <span className="block text-sm text-soft">
                          the tablet’s clock was off; put right by {Math.round(Math.abs(o.correctedMs) / 60_000)} min
                        </span>
                      ) : null}
                    </Td>
                    <Td className="whitespace-nowrap">{when(o.receivedAt)}</Td>
                    <Td>{o.what}</Td>
                    <Td>{o.by}</Td>
                    <Td>{o.device}</Td>
                    <Td>
                      <State shape={shape} tone={tone}>
                        {label}
                      </State>
                      {o.note ? <span className="block text-sm">{o.note}</span> : null}
                    </Td>
                  </tr>
                );
              })}
            </tbody>
          </Table>
        </details>
      )}
    </Sheet>
  );
}
