import { LEAVE, TARGETS, type SheetColumn } from '@/lib/core/sheet';
import { Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { Choose } from './choose';

const OPTIONS = [...TARGETS.map((t) => ({ value: t.key, label: t.label })), { value: LEAVE.key, label: LEAVE.label }];

/** What each column of the sheet is taken for, with a few of its values, to be put right by hand. */
export function SheetColumns({ runId, columns, headerLine }: { runId: string; columns: SheetColumn[]; headerLine: number }) {
  const shown = columns.filter((c) => c.filled > 0);
  return (
    <Sheet
      title="Columns"
      aside={<span className="text-soft">{headerLine > 0 ? `Names found in row ${headerLine}` : 'No row names them'}</span>}
    >
      <Table label="What each column is">
        <thead>
          <tr>
            <Th>In the sheet</Th>
            <Th className="max-sm:hidden">Such as</Th>
            <Th>Is</Th>
          </tr>
        </thead>
        <tbody>
          {shown.map((c) => (
            <tr key={c.at}>
              <Td className="font-bold wrap-break-word">
                {c.header || <span className="font-normal text-soft">no name</span>}
                <span className="block text-sm font-normal text-soft">{c.filled} filled</span>
              </Td>
              <Td className="text-soft max-sm:hidden">{c.samples.join(' · ').slice(0, 70)}</Td>
              <Td className="w-56 max-sm:w-40">
                <Choose
                  runId={runId}
                  of="column"
                  about={String(c.at)}
                  value={c.target}
                  options={OPTIONS}
                  label={`What the column ${c.header || c.at + 1} is`}
                  labelHidden
                />
              </Td>
            </tr>
          ))}
        </tbody>
      </Table>
    </Sheet>
  );
}
