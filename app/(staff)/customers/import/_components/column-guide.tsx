import { REFRIGERANT_IDS } from '@/lib/core/refrigerants/catalogue';
import { Table, Td, Th } from '@/app/_ui/tables/table';

type Line = { header: string; about: string; required: boolean; scope: string };
const PART: Record<string, string> = { names: 'Names', kitchen: 'Kitchen', unit: 'Unit', task: 'Tasks' };

/** Every column a file may have, in the order of the template. */
export function ColumnGuide({ columns }: { columns: Line[] }) {
  return (
    <details>
      <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">
        All {columns.length} columns
      </summary>
      <p className="my-2 max-w-[75ch] text-soft">
        Order does not matter, and columns you do not need can go. Measured values carry their unit in the column&rsquo;s name, so choose
        the one you have. Refrigerants: {REFRIGERANT_IDS.join(', ')}.
      </p>
      <Table label="Columns of the file">
        <thead>
          <tr>
            <Th>Column</Th>
            <Th>Of</Th>
            <Th>What it holds</Th>
          </tr>
        </thead>
        <tbody>
          {columns.map((c) => (
            <tr key={c.header}>
              <Td className="whitespace-nowrap font-bold">{c.header}</Td>
              <Td className="text-soft">{PART[c.scope]}</Td>
              <Td>
                {c.about} {c.required ? <span className="font-bold">Every row needs it.</span> : null}
              </Td>
            </tr>
          ))}
        </tbody>
      </Table>
    </details>
  );
}
