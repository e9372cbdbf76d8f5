import Link from 'next/link';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { Td } from '@/app/_ui/tables/table';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

type Unit = { id: string; name: string; refrigerant?: string; kitchen: { name: string; customer: { name: string } } };

/** A unit of the refrigerant book, with the way to its own lines. */
export const UnitCell = ({ unit, className }: { unit: Unit; className?: string }) => (
  <Td className={className}>
    <Link href={`/units/${unit.id}/refrigerant`}>{unit.name}</Link>
    <span className="block text-sm text-soft">
      {[fullKitchenName(unit.kitchen), unit.refrigerant === undefined ? '' : refrigerantLabel(unit.refrigerant)].filter(Boolean).join(', ')}
    </span>
  </Td>
);
