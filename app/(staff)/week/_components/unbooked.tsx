import Link from 'next/link';
import { daysBetween, type LocalDate } from '@/lib/core/calendar';
import { counted } from '@/lib/core/wording/counted';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { dayWords } from '@/lib/core/calendar/when';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type Row = { kitchenId: string; kitchen: string; customer: string; tasks: number; soonest: LocalDate };

/** What is due by the end of the week and stands on no visit, the longest overdue first. */
export function Unbooked({ kitchens, total, today }: { kitchens: Row[]; total: number; today: LocalDate }) {
  return (
    <Sheet
      title="Due, not booked"
      aside={total > 0 ? <span className="text-soft">{counted(total, 'kitchen')} by the end of this week</span> : null}
    >
      {kitchens.length === 0 ? (
        <p className="text-soft">Nothing is due by the end of this week that is not booked.</p>
      ) : (
        <Table label="Due, not booked">
          <thead>
            <tr>
              <Th>Kitchen</Th>
              <Th>Since when</Th>
              <Th className="text-right max-sm:hidden">Tasks</Th>
              <Th>
                <span className="sr-only">Book</span>
              </Th>
            </tr>
          </thead>
          <tbody>
            {kitchens.map((k) => {
              const late = daysBetween(k.soonest, today);
              return (
                <tr key={k.kitchenId}>
                  <Td>
                    <Link href={`/kitchens/${k.kitchenId}`} className="font-bold">
                      {k.kitchen}
                    </Link>
                    {k.kitchen === k.customer ? null : <span className="block text-sm text-soft">{k.customer}</span>}
                  </Td>
                  <Td>
                    {late > 0 ? (
                      <State shape="late" tone="alarm">
                        {counted(late, 'day')} over
                      </State>
                    ) : (
                      <State shape="now">due {dayWords(k.soonest)}</State>
                    )}
                  </Td>
                  <Td className="text-right max-sm:hidden">{k.tasks}</Td>
                  <Td className="text-right">
                    <ButtonLink href={`/week/book?kitchen=${k.kitchenId}`} prefetch={false}>
                      Book<span className="sr-only"> {kitchenInFull(k)}</span>
                    </ButtonLink>
                  </Td>
                </tr>
              );
            })}
          </tbody>
        </Table>
      )}
      {total > kitchens.length ? (
        <p className="mt-3">
          <Link href="/due">All that is due, {total - kitchens.length} kitchens more</Link>
        </p>
      ) : null}
    </Sheet>
  );
}
