import { useState } from 'react';
import { timeAt } from '@/app/_ui/when';
import { FOOD_CAUTION } from '@/lib/core/findings/cautions';
import { fromOwn, ownText, typedNumber, unitOf, type VisitOnFile } from '@/lib/core/round';
import { useSnapshot } from '../../_lib/tablet-context';
import { useWrite } from '../../_lib/use-write';
import { CautionNote } from '../caution-note';
import { EntryMark } from '../entry-mark';
import { Card, Chip, Fold, TouchField, TouchSelect } from '../touch';

/** Food too warm: told to whom and when. What becomes of the food is for the kitchen and its code. */
export function FoodWarnings({ visit, unitId }: { visit: VisitOnFile; unitId?: string }) {
  const me = useSnapshot((s) => s.me);
  const { write, busy, now } = useWrite(visit.id);
  const [unit, setUnit] = useState(unitId ?? '');
  const [degrees, setDegrees] = useState('');
  const [toldTo, setToldTo] = useState('');
  if (!me) return null;
  const typed = typedNumber(degrees);
  const list = visit.entries.foodWarnings.filter((w) => !unitId || w.unitId === unitId);
  const add = async () => {
    if (typed === null) return;
    if (
      await write('food_warning.add', { unitId: unit, boxK: fromOwn('boxK', typed, me), toldTo: toldTo.trim(), toldAt: now(), note: '' })
    ) {
      setDegrees('');
      setToldTo('');
    }
  };
  return (
    <Fold summary={FOOD_CAUTION.title} open={list.length > 0}>
      <Card className="border-0 pt-0">
        <CautionNote title="Tell someone now" words={FOOD_CAUTION.words} />
        <ul className="my-3 flex flex-col divide-y divide-line">
          {list.map((w) => (
            <li key={w.id} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
              <span>
                {visit.units.find((u) => u.id === w.unitId)?.name}: {ownText('boxK', w.boxK, me)}, told to {w.toldTo} at{' '}
                {timeAt(Date.parse(w.toldAt), visit.kitchen.utcOffsetMinutes)}
              </span>
              <EntryMark id={w.id} />
            </li>
          ))}
        </ul>
        <div className="grid grid-cols-1 gap-3 sm:grid-cols-3">
          {unitId ? null : (
            <TouchSelect
              id="food-unit"
              label="Unit"
              value={unit}
              onChange={(e) => setUnit(e.target.value)}
              options={[{ value: '', label: 'Choose' }, ...visit.units.map((u) => ({ value: u.id, label: u.name }))]}
            />
          )}
          <TouchField
            id={`food-degrees-${unitId ?? ''}`}
            label={`Food temperature (${unitOf('boxK', me)})`}
            inputMode="decimal"
            value={degrees}
            onChange={(e) => setDegrees(e.target.value)}
          />
          <TouchField
            id={`food-told-${unitId ?? ''}`}
            label="Told to"
            value={toldTo}
            onChange={(e) => setToldTo(e.target.value)}
            maxLength={200}
          />
        </div>
        <Chip className="mt-3" disabled={busy || !unit || typed === null || !toldTo.trim()} onClick={() => void add()}>
          Told them just now
        </Chip>
      </Card>
    </Fold>
  );
}
