import { useRef, useState } from 'react';
import { readHandover, takeIn } from '@/lib/tablet/handover';
import { officeOverHttp, OfficeError } from '@/lib/tablet/office';
import { Chip } from './touch';

/** Takes in a file that a tablet handed over; the office's sign-in may do it for whoever wrote it. */
export function TakeInFile() {
  const input = useRef<HTMLInputElement>(null);
  const [message, setMessage] = useState('');
  const [busy, setBusy] = useState(false);
  const take = async (file: File | undefined) => {
    if (!file) return;
    const handover = readHandover(await file.text());
    if (!handover) return setMessage('That is not a file of unsent work from Rimebook. Nothing was changed.');
    setBusy(true);
    try {
      const { results, photos, stopped } = await takeIn(officeOverHttp(), handover, () => Date.now());
      const asked = results.filter((r) => r.outcome !== 'applied').length;
      setMessage(
        `${results.length} of ${handover.entries.length} entries and ${photos} of ${handover.photos.length} pictures are in the office${asked ? `, ${asked} with a question; they stand on their visits` : ''}.${stopped ? ' The rest does not follow on what the office has from that tablet: send from the tablet itself.' : ''}`,
      );
    } catch (error) {
      setMessage(
        error instanceof OfficeError
          ? error.text
          : 'The file could not be read to its end. What had arrived is in the office; take it in again.',
      );
    }
    setBusy(false);
  };
  return (
    <div className="mt-4 border-t border-line pt-4">
      <input
        ref={input}
        type="file"
        accept="application/json,.json"
        className="sr-only"
        tabIndex={-1}
        aria-label="File of unsent work"
        onChange={(e) => void take(e.target.files?.[0]).finally(() => input.current && (input.current.value = ''))}
      />
      <Chip disabled={busy} onClick={() => input.current?.click()}>
        {busy ? 'Taking it in …' : 'Take in a file from another tablet'}
      </Chip>
      {message ? (
        <p role="status" className="mt-2">
          {message}
        </p>
      ) : null}
    </div>
  );
}
