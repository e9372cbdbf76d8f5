import { Figure } from '@/app/_ui/figures/figure';
import { PERCENT } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { addDays, type LocalDate } from '@/lib/core/calendar';
import { dateWords } from '@/lib/core/calendar/when';
import { RateBar } from './rate-bar';

type Season = { from: LocalDate; to: LocalDate; loss: { value: number; lo: number; hi: number } | null; coils: number; looks: number };

/** How fast coils fouled, season by season. */
export function SeasonTable({ seasons }: { seasons: Season[] }) {
  const most = Math.max(0.01, ...seasons.map((s) => s.loss?.hi ?? 0));
  return (
    <Table label="Fouling season by season">
      <thead>
        <tr>
          <Th>Season</Th>
          <Th className="w-[45%] min-w-32">Lost in 30 days</Th>
          <Th className="text-right">Coils</Th>
          <Th className="text-right">Looks</Th>
        </tr>
      </thead>
      <tbody>
        {seasons.map((s) => (
          <tr key={s.from}>
            <Td>
              {dateWords(s.from)} to {dateWords(addDays(s.to, -1))}
            </Td>
            <Td>
              {s.loss ? (
                <>
                  <RateBar of={s.loss} most={most} />
                  <Figure of={s.loss} scale={PERCENT} />
                </>
              ) : (
                <span className="text-soft">not enough visits yet</span>
              )}
            </Td>
            <Td className="text-right">{s.coils}</Td>
            <Td className="text-right">{s.looks}</Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
