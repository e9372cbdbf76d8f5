import { useState } from 'react';
import { State } from '@/app/_ui/states/state';
import {
  lacksForTask,
  unplannedTasks,
  type StandingTask,
  type UnitOnFile,
  type VisitOnFile,
  type VisitTaskOnFile,
} from '@/lib/core/tablet';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { Card, Chip, TouchButton, TouchField } from '../touch';

export function Tasks({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const tasks = visit.tasks.filter((t) => t.unitId === unit.id);
  const open = visit.status === 'booked' || visit.status === 'started';
  const unplanned = open ? unplannedTasks(visit, unit) : [];
  if (tasks.length + unplanned.length === 0) return null;
  return (
    <Card id="tasks" title="Tasks">
      <ul className="flex flex-col divide-y divide-line">
        {tasks.map((t) => (
          <li key={t.taskId} className="py-1 sm:py-3">
            <Task visit={visit} unit={unit} task={t} />
          </li>
        ))}
      </ul>
      {unplanned.length > 0 ? <Unplanned visit={visit} unit={unit} tasks={unplanned} /> : null}
    </Card>
  );
}

/** What nobody planned for today can be done all the same; what is graded answers it by itself. */
function Unplanned({ visit, unit, tasks }: { visit: VisitOnFile; unit: UnitOnFile; tasks: readonly StandingTask[] }) {
  const { writeAll, busy } = useWrite(visit.id);
  const done = (taskId: string) =>
    writeAll([
      { kind: 'task.take', payload: { taskId, unitId: unit.id } },
      { kind: 'task.done', payload: { taskId } },
    ]);
  return (
    <div role="group" aria-label="Not planned for this visit" className="mt-2 flex flex-wrap items-center gap-2">
      <span className="mr-auto text-soft">Not planned. Done all the same?</span>
      {tasks.map((t) => (
        <Chip key={t.taskId} disabled={busy} onClick={() => void done(t.taskId)}>
          {t.label}
        </Chip>
      ))}
    </div>
  );
}

function Task({ visit, unit, task }: { visit: VisitOnFile; unit: UnitOnFile; task: VisitTaskOnFile }) {
  const { write, busy } = useWrite(visit.id);
  const [asking, setAsking] = useState(false);
  const { draft: why, setDraft: setWhy, clear } = useDraft(`${visit.id}:${task.taskId}:not-done`, '');
  // Once closed, the office decides.
  const open = visit.status !== 'done';
  const lacks = lacksForTask(visit, unit, task);
  const notDone = async () => {
    if (await write('task.not_done', { taskId: task.taskId, reason: why.trim() })) {
      setAsking(false);
      clear();
    }
  };
  return (
    <div className="flex flex-col gap-2">
      <div className="flex items-center justify-between gap-2 sm:flex-wrap sm:gap-3">
        <span className="min-w-0 leading-tight">
          <b>{task.label}</b>
          {task.outcome === 'not_done' ? <span className="block text-soft">{task.reason}</span> : null}
        </span>
        <span className="flex items-center gap-2">
          {task.outcome === 'done' ? (
            <State shape="done" tone="cold">
              Done
            </State>
          ) : null}
          {task.outcome === 'not_done' ? <State shape="off">Not done</State> : null}
          {open && task.outcome !== 'done' ? (
            <TouchButton
              className="max-sm:min-h-12 max-sm:px-4"
              disabled={busy}
              onClick={() => void write('task.done', { taskId: task.taskId })}
            >
              Done
            </TouchButton>
          ) : null}
          {open && task.outcome !== 'not_done' ? (
            <Chip on={asking} className="whitespace-nowrap max-sm:px-2 sm:min-h-[3.75rem]" onClick={() => setAsking(!asking)}>
              Not done
            </Chip>
          ) : null}
        </span>
      </div>
      {task.outcome === 'done' && lacks.length > 0 ? (
        <p className="font-bold text-alarm">Before this counts, look and grade: {lacks.join(', ')}.</p>
      ) : null}
      {open && asking ? (
        <div className="flex flex-wrap items-end gap-2">
          <div className="min-w-[14rem] flex-1">
            <TouchField
              id={`not-done-${task.taskId}`}
              label="Why not?"
              value={why}
              maxLength={500}
              onChange={(e) => setWhy(e.target.value)}
            />
          </div>
          <Chip disabled={busy || why.trim().length < 3} onClick={() => void notDone()}>
            Save the reason
          </Chip>
        </div>
      ) : null}
    </div>
  );
}
