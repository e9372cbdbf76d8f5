import { fitsUnit } from '@/lib/core/entries/reading-fields';
import { NO_FOOD, untoldFood, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { useWrite } from '../../_lib/use-write';
import { Chip, Folds } from '../touch';
import { FoodWarnings } from '../visit/food-warnings';
import { Events } from './events';
import { FollowUps } from './follow-ups';
import { HowLeft } from './how-left';
import { Photos } from './photos';
import { Reached } from './reached';
import { Tasks } from './tasks';

/** What is said of the unit before one goes on. */
export function LeaveStep({ visit, unit, missed }: { visit: VisitOnFile; unit: UnitOnFile; missed: boolean }) {
  const { write, busy, now } = useWrite(visit.id);
  return (
    <>
      {missed ? <Reached visit={visit} unit={unit} /> : null}
      <Tasks visit={visit} unit={unit} />
      {untoldFood(visit, unit) === null ? null : (
        <div
          role="group"
          aria-label="Box too warm for food"
          className="flex flex-wrap items-center gap-3 rounded-lg border-2 border-alarm bg-sheet p-3"
        >
          <p className="min-w-0 flex-1">
            <b>The box read too warm for food.</b> Say below who was told, or that there is none in it.
          </p>
          <Chip
            disabled={busy}
            onClick={() => void write('event.add', { unitId: unit.id, kind: 'note', at: now(), note: NO_FOOD, cause: null })}
          >
            No food in it
          </Chip>
        </div>
      )}
      {missed ? null : <HowLeft visit={visit} unit={unit} />}
      <Folds>
        {fitsUnit('boxK', unit) ? <FoodWarnings visit={visit} unitId={unit.id} /> : null}
        <FollowUps visit={visit} unit={unit} />
        <Events visit={visit} unit={unit} />
      </Folds>
      {missed ? <Photos visit={visit} unit={unit} /> : null}
    </>
  );
}
