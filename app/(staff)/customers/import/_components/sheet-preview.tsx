import { counted } from '@/lib/core/wording/counted';
import { UNIT_KIND_LABEL, PLACEMENT_LABEL } from '@/lib/core/equipment/build';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import type { SheetReading, Assumption } from '@/lib/core/sheet';
import { Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';

const SHOWN = 12;
const labelIn = (labels: Record<string, string>, key: string) => labels[key] ?? (key === '' ? '…' : key);

/** The first rows as they will stand on file. */
export function SheetPreview({ lines, all }: Pick<SheetReading, 'lines'> & { all: number }) {
  const [head, ...rows] = lines;
  const at = (cells: readonly string[], name: string) => cells[head?.cells.indexOf(name) ?? -1] ?? '';
  return (
    <Sheet
      title="What goes on file"
      aside={
        <span className="text-soft">
          the first {Math.min(SHOWN, rows.length)} of {counted(all, 'row')}
        </span>
      }
    >
      <Table label="What goes on file">
        <thead>
          <tr>
            <Th className="max-sm:hidden">Row</Th>
            <Th>Kitchen</Th>
            <Th>Unit</Th>
            <Th>Where</Th>
            <Th className="max-sm:hidden">Refrigerant</Th>
            <Th className="max-md:hidden">Coil last cleaned</Th>
            <Th className="max-md:hidden">Every</Th>
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, SHOWN).map((r) => (
            <tr key={r.line}>
              <Td className="text-soft max-sm:hidden">{r.line}</Td>
              <Td>
                <span className="font-bold">{at(r.cells, 'customer')}</span>
                {at(r.cells, 'kitchen') !== at(r.cells, 'customer') ? (
                  <span className="block text-sm">{at(r.cells, 'kitchen')}</span>
                ) : null}
              </Td>
              <Td>
                {at(r.cells, 'unit')}
                <span className="block text-sm text-soft">{labelIn(UNIT_KIND_LABEL, at(r.cells, 'kind'))}</span>
              </Td>
              <Td>{labelIn(PLACEMENT_LABEL, at(r.cells, 'placement'))}</Td>
              <Td className="max-sm:hidden">{at(r.cells, 'refrigerant') ? refrigerantLabel(at(r.cells, 'refrigerant')) : '…'}</Td>
              <Td className="max-md:hidden">{at(r.cells, 'coil_cleaning_last_done')}</Td>
              <Td className="max-md:hidden">
                {at(r.cells, 'coil_cleaning_rule') ? counted(Number(at(r.cells, 'coil_cleaning_rule')), 'week') : ''}
              </Td>
            </tr>
          ))}
        </tbody>
      </Table>
    </Sheet>
  );
}

/** "Row 4." or "Rows 4, 9, 12 and more." */
function linesOf({ lines, rows }: Assumption): string {
  const more = rows > lines.length;
  return lines.length === 1 && !more ? `Row ${lines[0]}.` : `Rows ${lines.join(', ')}${more ? ' and more' : ''}.`;
}

/** What was done with the sheet without asking. */
export function SheetTold({ assumptions }: { assumptions: Assumption[] }) {
  if (assumptions.length === 0) return null;
  return (
    <Sheet title="Done without asking">
      <ul>
        {assumptions.map((t) => (
          <li key={`${t.column} ${t.text}`} className="border-b border-line py-1.5 last:border-0">
            <span className="font-bold">{counted(t.rows, 'row')}</span>
            {t.column ? ` “${t.column}”:` : ''} {t.text}
            {t.lines.length ? ` ${linesOf(t)}` : ''}
            {t.examples.length ? <span className="text-soft"> {t.examples.join(' · ')}</span> : null}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
