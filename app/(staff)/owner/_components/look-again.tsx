import Link from 'next/link';
import { dateWords } from '@/lib/core/calendar/when';
import { WAY_LABEL } from '@/lib/core/choices';
import { Sheet } from '@/app/_ui/page/sheet';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

type Again = {
  id: string;
  way: keyof typeof WAY_LABEL;
  unit: { id: string; name: string; kitchen: { name: string; customer: { name: string } } };
  lookAgainOn: string;
};

/** Decided a year ago, and nobody has said since whether it was right. */
export function LookAgain({ list }: { list: Again[] }) {
  if (list.length === 0) return null;
  return (
    <Sheet title="Decided a year ago: look at it again" className="mb-6">
      <ul>
        {list.map((c) => (
          <li key={c.id}>
            <Link href={`/units/${c.unit.id}/choice`}>{c.unit.name}</Link>, {fullKitchenName(c.unit.kitchen)}:{' '}
            {WAY_LABEL[c.way].toLowerCase()}; due {dateWords(c.lookAgainOn)}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
