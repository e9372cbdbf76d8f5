import { timeAt } from '@/lib/core/calendar/at-offset';
import { FOOD_CAUTION } from '@/lib/core/findings/cautions';
import { ownText, type VisitOnFile } from '@/lib/core/tablet';
import { useSnapshot } from '../../_lib/tablet-context';
import { CautionNote } from '../caution-note';
import { EntryMark } from '../entry-mark';
import { Card, Fold } from '../touch';
import { FoodForm } from './food-form';

/** Food too warm: told to whom and when. What becomes of the food is for the kitchen and its code. */
export function FoodWarnings({ visit, unitId }: { visit: VisitOnFile; unitId?: string }) {
  const me = useSnapshot((s) => s.me);
  if (!me) return null;
  const list = visit.entries.foodWarnings.filter((w) => !unitId || w.unitId === unitId);
  return (
    <Fold summary={FOOD_CAUTION.title} open={list.length > 0}>
      <Card className="border-0 pt-0">
        <CautionNote title="Tell someone now" text={FOOD_CAUTION.text} />
        <ul className="my-3 flex flex-col divide-y divide-line">
          {list.map((w) => (
            <li key={w.id} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
              <span>
                {visit.units.find((u) => u.id === w.unitId)?.name}: {ownText('boxK', w.boxK, me)}, told to {w.toldTo} at{' '}
                {timeAt(Date.parse(w.toldAt), visit.kitchen.utcOffsetMinutes)}
                {w.note ? <span className="block text-sm text-soft">{w.note}</span> : null}
              </span>
              <EntryMark id={w.id} />
            </li>
          ))}
        </ul>
        <FoodForm visit={visit} unitId={unitId} me={me} />
      </Card>
    </Fold>
  );
}
