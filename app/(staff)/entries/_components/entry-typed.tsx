import type { MeasureUnits } from '@/lib/core/measures/preferred';
import type { QuestionedEntry } from '@/lib/core/entries/questioned-entry';
import { Facts } from '@/app/_ui/tables/facts';
import { isPng, typedLines } from '@/lib/core/entries/words';
import { isRecord } from '@/lib/core/entries/say';
import { momentIn } from '@/lib/core/calendar/when';

/** A drawing is told by its size: its letters say nothing. */
const asItCame = (payload: unknown) =>
  JSON.stringify(payload, (key, v: unknown) => (key === 'png' && typeof v === 'string' ? `${v.length} letters` : v), 2);

/** What was typed, in words. Only what there are no words for is shown as it came, folded away. */
export function EntryTyped({
  entry: e,
  units,
  fileId,
}: {
  entry: QuestionedEntry;
  units: MeasureUnits;
  /** The picture, where the reader may open it. */
  fileId: string | null;
}) {
  const { lines, whole } = typedLines(e.kind, e.payload, {
    units,
    moment: (ms) => momentIn(ms, e.timeZone),
    name: (id) => e.names[id.toLowerCase()],
  });
  const png = isRecord(e.payload) && isPng(e.payload.png) ? e.payload.png : null;
  return (
    <>
      {lines.length > 0 ? <Facts items={lines} /> : null}
      {png ? (
        // eslint-disable-next-line @next/next/no-img-element -- drawn on the spot, part of the record
        <img src={`data:image/png;base64,${png}`} alt="The signature" className="h-24 rounded-md border border-line bg-white" />
      ) : null}
      {fileId ? (
        <a href={`/api/files/${fileId}`} target="_blank" rel="noopener" className="inline-flex min-h-11 items-center underline">
          The picture
        </a>
      ) : null}
      {whole ? null : (
        <details>
          <summary className="inline-flex min-h-11 items-center font-bold text-cold underline underline-offset-4">As it came</summary>
          <pre className="overflow-x-auto rounded-md bg-sunk p-2 text-sm">{asItCame(e.payload)}</pre>
        </details>
      )}
    </>
  );
}
