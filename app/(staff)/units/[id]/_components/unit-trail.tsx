import { Trail } from '@/app/_ui/page/trail';

type Unit = { id: string; name: string; kitchen: { id: string; name: string } };

/** The way back from a page about a unit. */
export const UnitTrail = ({ unit }: { unit: Unit }) => (
  <Trail
    items={[
      { href: `/kitchens/${unit.kitchen.id}`, label: unit.kitchen.name },
      { href: `/units/${unit.id}`, label: unit.name },
    ]}
  />
);
