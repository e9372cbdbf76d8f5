import Link from 'next/link';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Empty, Sheet } from '@/app/_ui/page/sheet';
import { DueState } from '@/app/_ui/states/due-state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { todayIn } from '@/lib/core/calendar';
import { toLocalDate } from '@/lib/core/calendar/date-column';

type Kitchen = {
  id: string;
  name: string;
  address: string;
  timeZone: string;
  archivedAt: Date | null;
  units: number;
  soonest: Date | null;
};
type Props = { customer: { id: string; name: string; kitchens: readonly Kitchen[] }; may: boolean; now: Date };

/** A customer's kitchens with what is due first in each. */
export function KitchensSheet({ customer, may, now }: Props) {
  if (customer.kitchens.length === 0)
    return (
      <Sheet title="Kitchens">
        <Empty action={may ? <ButtonLink href={`/kitchens/new?customer=${customer.id}`}>New kitchen</ButtonLink> : null}>
          A kitchen holds the units, the hours it can spare them, and how to get in.
        </Empty>
      </Sheet>
    );
  return (
    <Sheet title="Kitchens">
      <Table label={`Kitchens of ${customer.name}`}>
        <thead>
          <tr>
            <Th>Kitchen</Th>
            <Th className="max-md:hidden">Address</Th>
            <Th className="text-right">Units</Th>
            <Th>First due</Th>
          </tr>
        </thead>
        <tbody>
          {customer.kitchens.map((k) => (
            <tr key={k.id} className="hover:bg-sunk">
              <Td>
                <Link href={`/kitchens/${k.id}`} className="font-bold">
                  {k.name}
                </Link>
                {k.archivedAt ? <span className="text-soft"> (out of use)</span> : null}
              </Td>
              <Td className="text-soft max-md:hidden">{k.address}</Td>
              <Td className="text-right">{k.units}</Td>
              <Td>
                {k.soonest ? (
                  <DueState dueOn={toLocalDate(k.soonest)} today={todayIn(k.timeZone, now.getTime())} />
                ) : (
                  <span className="text-soft">nothing</span>
                )}
              </Td>
            </tr>
          ))}
        </tbody>
      </Table>
    </Sheet>
  );
}
