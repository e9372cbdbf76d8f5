import { useState } from 'react';
import { ASPECT_LABEL, type Aspect } from '@/lib/core/findings/grades';
import { Chip, TouchField } from '../touch';

const USUAL = ['Could not open it without damage', 'Kitchen would not stop the unit', 'No safe footing', 'Not on this unit'] as const;

/** "Not looked at" is an answer of its own and asks why. */
export function NotLooked({
  aspect,
  busy,
  onWhy,
  onBack,
}: {
  aspect: Aspect;
  busy: boolean;
  onWhy: (why: string) => void;
  onBack?: () => void;
}) {
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  return (
    <div className="mt-3 flex flex-col gap-3">
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
              <Chip key={w} disabled={busy} onClick={() => onWhy(w)}>
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
          <Chip disabled={busy || why.trim().length < 3} onClick={() => onWhy(why.trim())}>
            Save the reason
          </Chip>
        </div>
      ) : null}
    </div>
  );
}
