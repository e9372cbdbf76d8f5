import Link from 'next/link';
import type { GasYear } from '@/lib/core/refrigerant-book';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { bulk } from './words';

type Props = { year: number; years: number[]; totals: GasYear[]; units: MeasureUnits; report: string };

const FLOWS = [
  { key: 'bought', label: 'Bought' },
  { key: 'charged', label: 'Charged' },
  { key: 'recovered', label: 'Recovered' },
  { key: 'toReclaim', label: 'To reclaim' },
  { key: 'toDestruction', label: 'To destruction' },
  { key: 'netIntoUnits', label: 'Into units, net' },
] as const;
const CO2 = 'As CO2';

/** A year by gas. What went into units less what came out of them is what they lost, or newly hold. */
export function YearTable({ year, years, totals, units, report }: Props) {
  const tonnes = totals.reduce((sum, t) => sum + (t.co2Tonnes ?? 0), 0);
  const unsaid = totals.filter((t) => t.co2Tonnes === null).map((t) => refrigerantLabel(t.gas));
  return (
    <Sheet
      title={`The year ${year}`}
      aside={
        <nav aria-label="Years" className="flex gap-3">
          {years.map((y) =>
            y === year ? (
              <b key={y}>{y}</b>
            ) : (
              <Link key={y} href={`/refrigerants/book?year=${y}`}>
                {y}
              </Link>
            ),
          )}
        </nav>
      }
    >
      {totals.length === 0 ? (
        <p className="text-soft">No line in the book.</p>
      ) : (
        <>
          <Table stack label={`Totals of ${year}`}>
            <thead>
              <tr>
                {['Gas', ...FLOWS.map((f) => f.label), CO2].map((h) => (
                  <Th key={h}>{h}</Th>
                ))}
              </tr>
            </thead>
            <tbody>
              {totals.map((t) => (
                <tr key={t.gas}>
                  <Td className="font-bold whitespace-nowrap">{refrigerantLabel(t.gas)}</Td>
                  {FLOWS.map(({ key, label }) => (
                    <Td key={key} label={label} className="whitespace-nowrap">
                      {t[key] === 0 ? '–' : bulk(t[key], units)}
                    </Td>
                  ))}
                  <Td label={CO2} className="whitespace-nowrap">
                    {t.co2Tonnes === null ? <span className="text-soft">can’t say</span> : `${t.co2Tonnes.toFixed(2)} t`}
                  </Td>
                </tr>
              ))}
            </tbody>
          </Table>
          <p className="mt-2 text-sm text-soft">
            {tonnes.toFixed(2)} tonnes of CO2 equivalent, by the GWP of {report}; another report gives other tonnes.
            {unsaid.length > 0 ? ` Without ${unsaid.join(', ')}, which have none there.` : ''}
          </p>
        </>
      )}
    </Sheet>
  );
}
