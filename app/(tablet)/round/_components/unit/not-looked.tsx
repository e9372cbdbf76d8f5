import { ASPECT_LABEL, type Aspect } from '@/lib/core/findings/grades';
import { useDraft } from '../../_lib/use-draft';
import { Chip, TouchField } from '../touch';

const USUAL = ['Could not open it without damage', 'Kitchen would not stop the unit', 'No safe footing', 'Not on this unit'] as const;

/** "Not looked at" is an answer of its own and asks why. */
export function NotLooked({
  draftKey,
  aspect,
  busy,
  onWhy,
}: {
  /** Under which the typed reason is kept. */
  draftKey: string;
  aspect: Aspect;
  busy: boolean;
  onWhy: (why: string) => void;
}) {
  const { draft: why, setDraft: setWhy, clear } = useDraft(draftKey, '');
  const say = (reason: string) => {
    clear();
    onWhy(reason);
  };
  return (
    <div className="mt-2 flex flex-col gap-3 border-l-4 border-edge pl-3">
      <p className="font-bold">Why not?</p>
      <div className="flex flex-wrap gap-2">
        {USUAL.map((w) => (
          <Chip key={w} disabled={busy} onClick={() => say(w)}>
            {w}
          </Chip>
        ))}
      </div>
      <TouchField
        id={`why-${aspect}`}
        label={`Another reason: ${ASPECT_LABEL[aspect].toLowerCase()}`}
        value={why}
        maxLength={500}
        onChange={(e) => setWhy(e.target.value)}
      />
      <Chip disabled={busy || why.trim().length < 3} onClick={() => say(why.trim())}>
        Save the reason
      </Chip>
    </div>
  );
}
