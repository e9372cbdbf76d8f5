import { FOOD_LIMIT_K } from '../findings/cautions';
import { ASPECT_LABEL, gradeWords, isStopped } from '../findings/grades';
import { UNIT_EVENT_LABEL, URGENCY_LABEL } from '../entries/entries';
import { foodBox, NO_FOOD } from './unit-work';
import { ownText, type OwnUnits } from './own-units';
import type { UnitOnFile, VisitOnFile } from './state';

/** One line of what whoever signs puts a name to. */
export type DoneLine = { words: string; bad: boolean };

/** What a visit says of one unit, in words: reached or not, found and left, done, the box as it was left, food, work wanted. */
export function whatWasDone(visit: VisitOnFile, unit: UnitOnFile, own: OwnUnits): DoneLine[] {
  const { entries, tasks } = visit;
  const mine = <T extends { unitId: string | null }>(list: readonly T[]) => list.filter((x) => x.unitId === unit.id);
  const outcome = mine(entries.outcomes)[0];
  const lines: DoneLine[] = [];
  if (outcome && outcome.outcome !== 'seen')
    lines.push({ words: `${outcome.outcome === 'gone' ? 'Gone' : 'Could not be reached'}: ${outcome.reason}`, bad: true });
  for (const f of mine(entries.findings).filter((x) => x.phase === 'found' && x.grade !== null)) {
    const left = mine(entries.findings).find((x) => x.aspect === f.aspect && x.phase === 'left' && x.grade !== null);
    lines.push({
      words: `${ASPECT_LABEL[f.aspect]} found ${gradeWords(f)}${left ? `, left ${gradeWords(left)}` : ''}`,
      bad: isStopped(f.aspect, (left ?? f).grade ?? ''),
    });
  }
  const done = mine(tasks).filter((t) => t.outcome === 'done');
  if (done.length > 0) lines.push({ words: `Done: ${done.map((t) => t.label.toLowerCase()).join(', ')}`, bad: false });
  for (const t of mine(tasks).filter((x) => x.outcome === 'not_done'))
    lines.push({ words: `Not done: ${t.label.toLowerCase()}. ${t.reason}`, bad: false });
  lines.push(...boxLines(visit, unit, own));
  for (const w of mine(entries.foodWarnings))
    lines.push({ words: `Food at ${ownText('boxK', w.boxK, own)}, told to ${w.toldTo}`, bad: true });
  for (const e of mine(entries.events).filter((x) => x.note !== NO_FOOD))
    lines.push({ words: e.kind === 'note' ? e.note : [UNIT_EVENT_LABEL[e.kind], e.note].filter(Boolean).join(': '), bad: false });
  for (const f of mine(entries.followUps))
    lines.push({ words: `Work wanted: ${f.what} (${URGENCY_LABEL[f.urgency].toLowerCase()})`, bad: f.urgency === 'now' });
  return lines;
}

/** The box as it was met and as it was left. */
function boxLines(visit: VisitOnFile, unit: UnitOnFile, own: OwnUnits): DoneLine[] {
  const read = (phase: string) => visit.entries.readings.find((r) => r.unitId === unit.id && r.phase === phase)?.values.boxK;
  const [met, left] = [read('before'), read('after')];
  const warm = (k: number) => foodBox(unit) && k > FOOD_LIMIT_K;
  const parts = [
    met === undefined ? '' : `${ownText('boxK', met, own)} on arrival`,
    left === undefined ? '' : `${ownText('boxK', left, own)} on leaving`,
  ].filter(Boolean);
  if (parts.length === 0) return [];
  const none = visit.entries.events.some((e) => e.unitId === unit.id && e.note === NO_FOOD);
  return [{ words: `Box ${parts.join(', ')}${none ? '; no food in it' : ''}`, bad: [met, left].some((k) => k !== undefined && warm(k)) }];
}
