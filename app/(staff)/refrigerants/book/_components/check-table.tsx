import { addMonths, type LocalDate } from '@/lib/core/calendar';
import { dateWords } from '@/lib/core/calendar/when';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { UnitCell } from './unit-cell';
import { LEGAL } from './words';

type Check = {
  unit: { id: string; name: string; kitchen: { name: string; customer: { name: string } } };
  co2: number | null;
  checkMonths: number | null;
  lastTestOn: LocalDate | null;
};

/** Units that the EU rule asks checks of, and when the next is due by what is on file. */
export function CheckTable({ leaks, report, today }: { leaks: Check[]; report: string; today: LocalDate }) {
  return (
    <Sheet title="Leak checks by CO2 equivalent" aside={<span className="text-sm text-soft">{report}; no detector assumed</span>}>
      {leaks.length === 0 ? (
        <p className="text-soft">No charge on file asks for them.</p>
      ) : (
        <Table stack label="Leak checks by CO2 equivalent">
          <thead>
            <tr>
              {['Unit', 'CO2 equivalent', 'Every', 'Last on file', 'Next'].map((h) => (
                <Th key={h}>{h}</Th>
              ))}
            </tr>
          </thead>
          <tbody>
            {leaks.map(({ unit, co2, checkMonths, lastTestOn }) => {
              const due = lastTestOn && checkMonths !== null ? addMonths(lastTestOn, checkMonths) : null;
              return (
                <tr key={unit.id}>
                  <UnitCell unit={{ id: unit.id, name: unit.name, kitchen: unit.kitchen }} />
                  <Td label="CO2 equivalent">{co2 === null ? 'can’t say' : `${co2.toFixed(1)} t`}</Td>
                  <Td label="Every">{checkMonths} months</Td>
                  <Td label="Last on file">{lastTestOn ? dateWords(lastTestOn) : 'none'}</Td>
                  <Td label="Next">
                    {due && due >= today ? (
                      dateWords(due)
                    ) : (
                      <State shape="now" tone="ink">
                        {due ? `was due ${dateWords(due)}` : 'now: none is on file'}
                      </State>
                    )}
                  </Td>
                </tr>
              );
            })}
          </tbody>
        </Table>
      )}
      <p className="mt-2 text-sm text-soft">A check is entered on the unit’s page of refrigerant, as a test. {LEGAL}</p>
    </Sheet>
  );
}
