import { State } from '@/app/_ui/states/state';
import type { UnitOnFile } from '@/lib/core/tablet';
import { pastSaving } from '@/lib/core/tablet/past-saving';

/** Said before anyone brushes for an hour: the last cleanings did not open this coil. */
export function PastSaving({ unit }: { unit: UnitOnFile }) {
  const grade = pastSaving(unit);
  if (!grade) return null;
  const quoted = unit.openFollowUps.some((f) => f.urgency === 'quote' && /coil/i.test(f.what));
  return (
    <div className="rounded-md border border-edge bg-sunk p-3">
      <State shape="late" tone="alarm">
        Coil past saving
      </State>
      <p>
        Left {grade} after each of the last two cleanings. Look through it with a lamp before you spend time on it; a new coil or unit is
        the way out. {quoted ? 'A quote is open.' : 'Ask for a quote below.'}
      </p>
    </div>
  );
}
