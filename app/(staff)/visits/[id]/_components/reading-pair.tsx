import type { ReactNode } from 'react';
import type { UnitReport } from '@/lib/core/tablet/visit-report';
import { Figure } from '@/app/_ui/figures/figure';
import { differenceIn, PERCENT } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { timeIn } from '@/lib/core/calendar/when';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { FIELD_INFO, ownText, READING_FIELDS } from '@/lib/core/tablet';

type Reading = UnitReport['readings'][number];

/** Before and after cleaning side by side: what was read, and what it means. */
export function ReadingPair({
  before,
  after,
  units,
  timeZone,
  of,
}: {
  before: Reading | undefined;
  after: Reading | undefined;
  units: MeasureUnits;
  timeZone: string;
  of: string;
}) {
  const both = [before, after].filter((r): r is Reading => r !== undefined);
  const own = { temperatureUnit: units.temperature, pressureUnit: units.pressure };
  const fields = READING_FIELDS.filter((f) => both.some((r) => r.values[f] !== undefined));
  const row = (label: string, cell: (r: Reading) => ReactNode, strong = false) => (
    <tr className={strong ? 'bg-cold-wash' : ''}>
      <th scope="row" className={`border-b border-line px-2 py-1.5 text-left align-top text-sm ${strong ? '' : 'font-normal text-soft'}`}>
        {label}
      </th>
      {both.map((r) => (
        <Td key={r.id} className="py-1.5!">
          {cell(r)}
        </Td>
      ))}
    </tr>
  );
  const estimated = both.some((r) => r.estimate?.status === 'ok');
  const lost = (r: Reading) =>
    r.estimate?.status === 'ok' ? <Figure of={r.estimate.conductanceLost} scale={PERCENT} /> : <span className="text-soft">can’t say</span>;
  return (
    <Table label={`Readings of ${of}`}>
      <thead>
        <tr>
          <Th>
            <span className="sr-only">What was read</span>
          </Th>
          {both.map((r) => (
            <Th key={r.id}>
              {r.phase === 'before' ? 'Before cleaning' : 'After cleaning'}{' '}
              <span className="font-normal text-soft">{timeIn(r.at, timeZone)}</span>
            </Th>
          ))}
        </tr>
      </thead>
      <tbody>
        {fields.map((f) => (
          <Row key={f}>{row(FIELD_INFO[f].label, (r) => (r.values[f] === undefined ? '—' : ownText(f, r.values[f] as number, own)))}</Row>
        ))}
        {estimated
          ? row(
              'Rise over the air',
              (r) => (r.estimate?.status === 'ok' ? <Figure of={r.estimate.riseK} scale={differenceIn(units)} /> : '—'),
              true,
            )
          : null}
        {estimated ? row('Heat transfer lost', lost, true) : null}
        {estimated
          ? row(
              'Cooling lost, hot day',
              (r) =>
                r.estimate?.status === 'ok' && r.estimate.coolingLostHotDay ? (
                  <Figure of={r.estimate.coolingLostHotDay} scale={PERCENT} />
                ) : (
                  '—'
                ),
              true,
            )
          : null}
        {both.some((r) => r.estimate)
          ? row('It says', (r) => (r.estimate ? <span className="text-sm">{r.estimate.sentence}</span> : '—'))
          : null}
        {both.some((r) => r.questioned.length > 0)
          ? row('Asked on the spot', (r) =>
              r.questioned.map((q) => (
                <p key={q.question} className="text-sm">
                  {q.question} <b>{q.answer}</b>
                </p>
              )),
            )
          : null}
      </tbody>
    </Table>
  );
}

const Row = ({ children }: { children: ReactNode }) => children;
