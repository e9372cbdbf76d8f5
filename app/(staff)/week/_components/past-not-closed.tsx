import { OpenVisitList, type OpenVisits } from '../../_components/open-visits';

/** Their tasks count as booked and so are on no other list until the visit is closed, moved or cancelled. */
export function PastNotClosed(found: OpenVisits) {
  return (
    <aside aria-labelledby="past-not-closed" className="rounded-lg border-2 border-alarm bg-sheet p-4">
      <h2 id="past-not-closed">Past and not closed</h2>
      <p className="mt-2 text-sm text-soft">Their tasks count as booked. Move or cancel what was not done.</p>
      <OpenVisitList {...found} />
    </aside>
  );
}
