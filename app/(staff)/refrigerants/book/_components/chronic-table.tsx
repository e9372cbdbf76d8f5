import { dateWords } from '@/lib/core/calendar/when';
import type { LocalDate } from '@/lib/core/calendar';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { FileLink } from '@/app/_ui/buttons/button';
import { Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { UnitCell } from './unit-cell';
import { bulk, LEGAL } from './words';

type Chronic = {
  leaks: {
    unit: { id: string; name: string; refrigerant: string; chargeKg: number | null; kitchen: { name: string; customer: { name: string } } };
  };
  rule: { key: string; title: string; chronicSource: string };
  percent: number;
  addedKg: number;
  days: LocalDate[];
};

/** Units of a year that a report is due on; nothing where there are none. */
export function ChronicTable({ year, chronic, units }: { year: number; chronic: Chronic[]; units: MeasureUnits }) {
  if (chronic.length === 0) return null;
  return (
    <Sheet
      title={`Chronic leakers of ${year}`}
      aside={<FileLink href={`/refrigerants/book/export?year=${year}&of=chronic`}>For the report, as CSV</FileLink>}
    >
      <p className="mb-3">
        They took 125 % of their full charge or more in the year: a report that says what was done to find and mend the leaks is due by{' '}
        <b>1 March {year + 1}</b>.
      </p>
      <Table stack label={`Chronic leakers of ${year}`}>
        <thead>
          <tr>
            {['Unit', 'Full charge', 'Added in the year', 'Of its charge', 'On', 'Rule'].map((h) => (
              <Th key={h}>{h}</Th>
            ))}
          </tr>
        </thead>
        <tbody>
          {chronic.map(({ leaks: { unit }, rule, percent, addedKg, days }) => (
            <tr key={`${unit.id} ${rule.key}`}>
              <UnitCell unit={unit} className="min-w-44" />
              <Td label="Full charge">{unit.chargeKg === null ? '–' : bulk(unit.chargeKg, units)}</Td>
              <Td label="Added in the year">{bulk(addedKg, units)}</Td>
              <Td label="Of its charge">{percent.toFixed(0)} %</Td>
              <Td label="On">{days.map(dateWords).join(', ')}</Td>
              <Td label="Rule">
                {rule.title}, {rule.chronicSource}
              </Td>
            </tr>
          ))}
        </tbody>
      </Table>
      <p className="mt-2 text-sm text-soft">{LEGAL}</p>
    </Sheet>
  );
}
