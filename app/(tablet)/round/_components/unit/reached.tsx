import { useState } from 'react';
import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { tasksUndone } from '../../_lib/tasks-undone';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { Chip, TouchButton, TouchField } from '../touch';

const USUAL = [
  'Locked, nobody had the key',
  'Blocked by stock',
  'In use, kitchen would not stop it',
  'No ladder or no safe footing',
] as const;

/** Could not reach, or gone: with a reason, which also answers the unit's open tasks. */
export function Reached({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const { write, writeAll, busy } = useWrite(visit.id);
  const [asking, setAsking] = useState<'could_not_reach' | 'gone' | null>(null);
  const { draft: why, setDraft: setWhy, clear } = useDraft(`${visit.id}:${unit.id}:reached`, '');
  const standing = visit.entries.outcomes.find((o) => o.unitId === unit.id);
  const say = async (outcome: 'could_not_reach' | 'gone', reason: string) => {
    const why = outcome === 'gone' ? `Unit gone: ${reason}` : `Could not reach: ${reason}`;
    const said = [{ kind: 'unit.outcome' as const, payload: { unitId: unit.id, outcome, reason } }, ...tasksUndone(visit, unit.id, why)];
    if (!(await writeAll(said))) return;
    setAsking(null);
    clear();
  };
  if (standing && standing.outcome !== 'seen')
    return (
      <div className="flex flex-wrap items-center gap-3 rounded-lg border-2 border-ink bg-sheet p-4">
        <p className="min-w-0 flex-1">
          <b>{standing.outcome === 'gone' ? 'Gone.' : 'Could not reach.'}</b> {standing.reason}
        </p>
        <Chip disabled={busy} onClick={() => void write('unit.outcome', { unitId: unit.id, outcome: 'seen', reason: '' })}>
          I can reach it now
        </Chip>
      </div>
    );
  return (
    <div className="flex flex-col gap-3">
      <div className="grid grid-cols-2 gap-2 sm:flex sm:flex-wrap">
        <Chip on={asking === 'could_not_reach'} onClick={() => setAsking(asking === 'could_not_reach' ? null : 'could_not_reach')}>
          Could not reach
        </Chip>
        <Chip on={asking === 'gone'} onClick={() => setAsking(asking === 'gone' ? null : 'gone')}>
          Unit gone
        </Chip>
      </div>
      {asking ? (
        <div className="flex flex-col gap-3 rounded-lg border border-edge bg-sheet p-4">
          <p className="font-bold">{asking === 'gone' ? 'What do they say became of it?' : 'Why not?'}</p>
          {asking === 'could_not_reach' ? (
            <div className="flex flex-wrap gap-2">
              {USUAL.map((w) => (
                <Chip key={w} disabled={busy} onClick={() => void say(asking, w)}>
                  {w}
                </Chip>
              ))}
            </div>
          ) : null}
          <TouchField id="reached-why" label="In your words" value={why} maxLength={500} onChange={(e) => setWhy(e.target.value)} />
          <TouchButton disabled={busy || why.trim().length < 3} onClick={() => void say(asking, why.trim())}>
            Save
          </TouchButton>
        </div>
      ) : null}
    </div>
  );
}
