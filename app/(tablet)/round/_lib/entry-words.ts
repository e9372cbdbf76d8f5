import { timeAt } from '@/lib/core/calendar/at-offset';
import { entrySentence } from '@/lib/core/entries/words';
import { measureUnitsOf, upgradedEntry, type Me, type Entry, type VisitOnFile } from '@/lib/core/tablet';

/** The visit is not there any more where the tablet has let go of it. */
type About = {
  visit?: Pick<VisitOnFile, 'kitchen' | 'tasks' | 'jobs'>;
  unitName: (unitId: string) => string;
  me: Pick<Me, 'temperatureUnit' | 'pressureUnit' | 'massUnit'>;
};

/** What an entry says, in words enough to write it again; the office words it by the same table. */
export function entryWords(entry: Entry, { visit, unitName, me }: About): string {
  const { kind, payload } = upgradedEntry(entry);
  return entrySentence(kind, payload, {
    units: measureUnitsOf(me),
    moment: (ms) => timeAt(ms, visit?.kitchen.utcOffsetMinutes ?? -new Date(ms).getTimezoneOffset()),
    name: (id) => {
      if ('jobId' in payload) return visit?.jobs?.find((j) => j.id === id)?.what ?? 'a job that is not on this tablet';
      if (!('taskId' in payload)) return unitName(id);
      const task = visit?.tasks.find((t) => t.taskId === id);
      return task ? `${task.label} of ${unitName(task.unitId)}` : 'a task that is not on this tablet';
    },
  });
}
