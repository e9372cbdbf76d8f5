import { useState } from 'react';
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
  onBack,
}: {
  /** Under which the typed reason is kept. */
  draftKey: string;
  aspect: Aspect;
  busy: boolean;
  onWhy: (why: string) => void;
  onBack?: () => void;
}) {
  const [open, setOpen] = useState(false);
  const { draft: why, setDraft: setWhy, clear } = useDraft(draftKey, '');
  const say = (words: string) => {
    clear();
    onWhy(words);
  };
  return (
    <div className="mt-1 flex flex-col gap-3">
      <div className="flex flex-wrap gap-2">
        <Chip on={open} onClick={() => setOpen(!open)}>
          Not looked at
        </Chip>
        {onBack ? <Chip onClick={onBack}>Leave as it was</Chip> : null}
      </div>
      {open ? (
        <div className="flex flex-col gap-3 border-l-4 border-edge pl-3">
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
      ) : null}
    </div>
  );
}
