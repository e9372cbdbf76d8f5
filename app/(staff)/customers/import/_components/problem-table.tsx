import { whole } from '@/lib/core/measures/figures';
import type { Problem } from '@/lib/core/fleet-csv';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';

export const PROBLEMS_SHOWN = 200;

type Props = { problems: Problem[]; all?: number; /** Where as many rows of them are to be had. */ file?: { runId: string; rows: number } };

/** Everything that is wrong with a file, by line and column, with what to do. */
export function ProblemTable({ problems, all = problems.length, file }: Props) {
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
          {problems.slice(0, PROBLEMS_SHOWN).map((p, i) => (
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
        {all > PROBLEMS_SHOWN ? `The first ${PROBLEMS_SHOWN} of ${whole(all)}. ` : ''}
        {file ? (
          <a href={`/customers/import/${file.runId}/problems`} download>
            {all > file.rows ? `The first ${whole(file.rows)} as a file` : 'All of them as a file'}
          </a>
        ) : null}
      </p>
    </>
  );
}
