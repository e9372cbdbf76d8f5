import { whole } from '@/lib/core/measures/figures';
import type { Problem } from '@/lib/core/fleet-csv';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';

const SHOWN = 200;

/** Everything that is wrong with a file, by line and column, with what to do. */
export function ProblemTable({ problems, all = problems.length, runId }: { problems: Problem[]; all?: number; runId?: string }) {
  return (
    <>
      <Table label="What is wrong with the file">
        <thead>
          <tr>
            <Th className="text-right">Line</Th>
            <Th>Column</Th>
            <Th>Value</Th>
            <Th>What to do</Th>
          </tr>
        </thead>
        <tbody>
          {problems.slice(0, SHOWN).map((p, i) => (
            <tr key={i}>
              <Td className="text-right">{p.line}</Td>
              <Td className="whitespace-nowrap font-bold">{p.column || <span className="font-normal text-soft">whole line</span>}</Td>
              <Td className="max-w-[18rem] break-words">{p.value || <span className="text-soft">empty</span>}</Td>
              <Td>
                {p.severity === 'note' ? (
                  <State shape="ask" tone="soft">
                    Note
                  </State>
                ) : null}{' '}
                {p.message}
              </Td>
            </tr>
          ))}
        </tbody>
      </Table>
      <p className="mt-3 text-sm">
        {all > SHOWN ? `The first ${SHOWN} of ${whole(all)}. ` : ''}
        {runId ? (
          <a href={`/customers/import/${runId}/problems`} download>
            {all > problems.length ? `The first ${whole(problems.length)} as a file` : 'All of them as a file'}
          </a>
        ) : null}
      </p>
    </>
  );
}
