import { dateWords } from '@/lib/core/calendar/when';
import type { Addition, LeakMethod, LeakRate, LeakRule, RepairClock } from '@/lib/core/refrigerant-book';
import { kilogramToGram, kilogramToOunce } from '@/lib/core/measures/mass';
import { formatQuantity } from '@/lib/core/measures';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { UnitCell } from './unit-cell';
import { bulk, clockLook, LEGAL } from './words';

export type Leaks = {
  unit: { id: string; name: string; refrigerant: string; chargeKg: number | null; kitchen: { name: string; customer: { name: string } } };
  additions: Addition[];
  annualizing: LeakRate[];
  rolling: LeakRate[];
  rules: { rule: LeakRule; clock: RepairClock | null; inspectMonths: number | null }[];
};

const percent = (r: LeakRate | undefined) => (r ? `${r.percent.toFixed(r.percent < 10 ? 1 : 0)} %` : 'can’t say');
/** Of a charge, or of a part of it: the same unit for both. */
const mass = (kg: number, u: MeasureUnits, chargeKg = kg) =>
  chargeKg >= 0.9
    ? bulk(kg, u)
    : u.mass === 'oz'
      ? formatQuantity(kilogramToOunce(kg), 1, 'oz')
      : formatQuantity(kilogramToGram(kg), 0, 'g');

/** What each unit lost at its last addition, a year, and what the rules that reach it ask. */
export function LeakTable({ title, leaks, units, method }: { title: string; leaks: Leaks[]; units: MeasureUnits; method: LeakMethod }) {
  return (
    <Sheet
      title={title}
      aside={<span className="text-sm text-soft">the shop goes by the {method === 'rolling' ? 'rolling' : 'annualizing'} method</span>}
    >
      {leaks.length === 0 ? (
        <p className="text-soft">None yet. A unit stands here once refrigerant was weighed into it beyond what was taken out.</p>
      ) : (
        <Table stack label={title}>
          <thead>
            <tr>
              {['Unit', 'Full charge', 'Last added', 'Annualized', 'Rolling year', 'Rule'].map((h) => (
                <Th key={h}>{h}</Th>
              ))}
            </tr>
          </thead>
          <tbody>
            {leaks.map(({ unit, additions, annualizing, rolling, rules }) => {
              const last = additions.at(-1);
              return (
                <tr key={unit.id}>
                  <UnitCell unit={unit} className="min-w-36" />
                  <Td label="Full charge" className="whitespace-nowrap">
                    {unit.chargeKg === null ? 'not on file' : mass(unit.chargeKg, units)}
                  </Td>
                  <Td label="Last added">
                    {last ? (
                      <>
                        <span className="whitespace-nowrap">{mass(last.kg, units, unit.chargeKg ?? last.kg)}</span> on {dateWords(last.on)}
                      </>
                    ) : (
                      '–'
                    )}
                  </Td>
                  <Td label="Annualized" className={method === 'annualizing' ? 'font-bold' : ''}>
                    {percent(annualizing.at(-1))}
                  </Td>
                  <Td label="Rolling year" className={method === 'rolling' ? 'font-bold' : ''}>
                    {percent(rolling.at(-1))}
                  </Td>
                  <Td label="Rule">
                    {rules.length === 0 ? (
                      <span className="text-soft">{unit.chargeKg === null ? 'Charge unknown: can’t say' : 'None by its charge'}</span>
                    ) : null}
                    {rules.map(({ rule, clock, inspectMonths }) => (
                      <span key={rule.key} className="block min-w-32">
                        <span className="text-sm text-soft">
                          {rule.title}, {rule.thresholdPercent.commercial_refrigeration} %
                        </span>{' '}
                        {clock ? (
                          <State shape={clockLook(clock).shape} tone={clockLook(clock).tone}>
                            {clockLook(clock).label}
                          </State>
                        ) : null}
                        {clock && clock.state !== 'below' && inspectMonths !== null ? (
                          <span className="block text-sm text-soft">
                            {clock.rate.percent.toFixed(0)} % on {dateWords(clock.rate.on)}; then inspected every {inspectMonths} months
                          </span>
                        ) : null}
                      </span>
                    ))}
                  </Td>
                </tr>
              );
            })}
          </tbody>
        </Table>
      )}
      <p className="mt-2 text-sm text-soft">
        Added: charged less what was recovered within two weeks before. Methods of 40 CFR 82.152 and 84.102. {LEGAL}
      </p>
    </Sheet>
  );
}
