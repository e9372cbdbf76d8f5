import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { Sheet } from '@/app/_ui/page/sheet';
import { hoursWords } from './hours';

type Props = { kitchen: { address: string; serviceHours: WeeklyWindow[]; accessNotes: string }; address?: boolean };

/** What whoever books a visit must know of the kitchen: where, when, and how to get in. */
export function KitchenSheet({ kitchen, address = false }: Props) {
  return (
    <Sheet title="The kitchen" className="self-start">
      {address ? <p className="mb-3">{kitchen.address}</p> : null}
      <h3>Can spare its equipment</h3>
      <ul className="mb-3">
        {hoursWords(kitchen.serviceHours).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <h3>Access</h3>
      <p className="whitespace-pre-line">{kitchen.accessNotes || 'No access notes on file.'}</p>
    </Sheet>
  );
}
