import Link from 'next/link';
import { hoursWords } from '@/app/_ui/words/hours-words';
import { Sheet } from '@/app/_ui/page/sheet';
import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

type Kitchen = {
  id: string;
  name: string;
  customer: string;
  address: string;
  contact: string;
  phone: string;
  email: string;
  serviceHours: WeeklyWindow[];
  accessNotes: string;
};

/** Whom to ring and how to get in, beside the visit that is being changed. */
export function KitchenOfVisit({ kitchen }: { kitchen: Kitchen }) {
  const { contact, phone, email } = kitchen;
  return (
    <Sheet title="The kitchen">
      <p>
        <Link href={`/kitchens/${kitchen.id}`} className="font-bold">
          {fullKitchenName(kitchen)}
        </Link>
      </p>
      <p>{kitchen.address}</p>
      <p className="mt-2">
        {contact ? `${contact}, ` : ''}
        {phone ? <a href={`tel:${phone}`}>{phone}</a> : <span className="text-soft">no number on file</span>}
      </p>
      <p>{email ? <a href={`mailto:${email}`}>{email}</a> : <span className="text-soft">No e-mail on file.</span>}</p>
      <h3 className="mt-3">Can spare its equipment</h3>
      <ul>
        {hoursWords(kitchen.serviceHours).map((l) => (
          <li key={l}>{l}</li>
        ))}
      </ul>
      <h3 className="mt-3">Access</h3>
      <p className="whitespace-pre-line">{kitchen.accessNotes || 'No access notes on file.'}</p>
    </Sheet>
  );
}
