import { isStopped } from '../findings/grades';
import { signingIn, type SigningWords } from '../customer-words/signing';
import { NO_FOOD, tooWarmForFood } from './unit-work';
import { ownText, type OwnUnits } from './own-units';
import type { UnitOnFile, VisitOnFile } from './state';

/** One line of what whoever signs puts a name to. */
export type DoneLine = { words: string; bad: boolean };

/**
 * What a visit says of one unit, in the words of whoever signs: reached or not, found and left, done, the box as it was left,
 * food, work wanted. What was typed stays as it was typed.
 */
export function whatWasDone(visit: VisitOnFile, unit: UnitOnFile, own: OwnUnits, say: SigningWords = signingIn('en')): DoneLine[] {
  const { entries, tasks } = visit;
  const mine = <T extends { unitId: string | null }>(list: readonly T[]) => list.filter((x) => x.unitId === unit.id);
  const outcome = mine(entries.outcomes)[0];
  const lines: DoneLine[] = [];
  if (outcome && outcome.outcome !== 'seen')
    lines.push({ words: outcome.outcome === 'gone' ? say.gone(outcome.reason) : say.noReach(outcome.reason), bad: true });
  for (const f of mine(entries.findings).filter((x) => x.phase === 'found' && x.grade !== null)) {
    const left = mine(entries.findings).find((x) => x.aspect === f.aspect && x.phase === 'left' && x.grade !== null);
    lines.push({
      words: say.found(f, left),
      bad: isStopped(f.aspect, (left ?? f).grade ?? ''),
    });
  }
  const done = mine(tasks).filter((t) => t.outcome === 'done');
  if (done.length > 0) lines.push({ words: say.done(done.map(say.task).join(', ')), bad: false });
  for (const t of mine(tasks).filter((x) => x.outcome === 'not_done'))
    lines.push({ words: say.notDone(say.task(t), t.reason), bad: false });
  lines.push(...boxLines(visit, unit, own, say));
  for (const w of mine(entries.foodWarnings)) lines.push({ words: say.food(ownText('boxK', w.boxK, own), w.toldTo), bad: true });
  for (const e of mine(entries.events).filter((x) => x.note !== NO_FOOD))
    lines.push({ words: e.kind === 'note' ? e.note : say.event(e.kind, e.note), bad: false });
  for (const f of mine(entries.followUps)) lines.push({ words: say.work(f.what, f.urgency), bad: f.urgency === 'now' });
  return lines;
}

/** The box as it was met and as it was left. */
function boxLines(visit: VisitOnFile, unit: UnitOnFile, own: OwnUnits, say: SigningWords): DoneLine[] {
  const read = (phase: string) => visit.entries.readings.find((r) => r.unitId === unit.id && r.phase === phase)?.values.boxK;
  const [met, left] = [read('before'), read('after')];
  const parts = [
    met === undefined ? '' : say.arriving(ownText('boxK', met, own)),
    left === undefined ? '' : say.leaving(ownText('boxK', left, own)),
  ].filter(Boolean);
  if (parts.length === 0) return [];
  const none = visit.entries.events.some((e) => e.unitId === unit.id && e.note === NO_FOOD);
  return [{ words: say.box(parts.join(', '), none), bad: [met, left].some((k) => k !== undefined && tooWarmForFood(unit, k)) }];
}
