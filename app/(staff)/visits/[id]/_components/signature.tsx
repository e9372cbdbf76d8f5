import { Sheet } from '@/app/_ui/page/sheet';
import type { VisitReport } from '@/lib/core/tablet/visit-report';

/** Who signed, drawn on the spot; or that nobody was there to. */
export function Signature({ of }: { of: VisitReport['signature'] }) {
  return <Sheet title="Signature">{signed(of)}</Sheet>;
}

function signed(of: VisitReport['signature']) {
  if (of === null) return <p className="text-soft">Not signed.</p>;
  if (of.nobody) return <p>Nobody was there to sign.</p>;
  return (
    <figure>
      {/* eslint-disable-next-line @next/next/no-img-element -- drawn on the spot, part of the record */}
      <img
        src={`data:image/png;base64,${of.png}`}
        alt={`Signature of ${of.by}`}
        className="w-full rounded-md border border-line bg-white"
      />
      <figcaption className="mt-1 text-sm text-soft">{of.by}</figcaption>
    </figure>
  );
}
