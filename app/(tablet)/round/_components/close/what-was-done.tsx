import { ASPECT_LABEL, gradeWords, isStopped } from '@/lib/core/findings/grades';
import { ownText, type Me, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { Card } from '../touch';

/** What whoever signs puts a name to: unit by unit, found, done, left, and food that was too warm. */
export function WhatWasDone({ visit, me }: { visit: VisitOnFile; me: Me }) {
  const said = visit.units.map((unit) => ({ unit, lines: linesOf(visit, unit, me) })).filter((u) => u.lines.length > 0);
  return (
    <Card title="What was found and done">
      {said.length === 0 ? <p>Nothing has been written yet.</p> : null}
      <ul className="flex flex-col gap-2">
        {said.map(({ unit, lines }) => (
          <li key={unit.id}>
            <b>{unit.name}</b>
            <ul className="list-disc pl-5">
              {lines.map((line) => (
                <li key={line.words} className={line.bad ? 'font-bold text-alarm' : ''}>
                  {line.words}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
      {visit.entries.parts.length > 0 ? (
        <p className="mt-2">Parts: {visit.entries.parts.map((p) => `${p.quantity} × ${p.what}`).join(', ')}.</p>
      ) : null}
    </Card>
  );
}

type Line = { words: string; bad: boolean };

function linesOf(visit: VisitOnFile, unit: UnitOnFile, me: Me): Line[] {
  const { entries, tasks } = visit;
  const mine = <T extends { unitId: string | null }>(list: readonly T[]) => list.filter((x) => x.unitId === unit.id);
  const outcome = mine(entries.outcomes)[0];
  const lines: Line[] = [];
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
  for (const w of mine(entries.foodWarnings))
    lines.push({ words: `Food at ${ownText('boxK', w.boxK, me)}, told to ${w.toldTo}`, bad: true });
  for (const f of mine(entries.followUps)) lines.push({ words: `Work wanted: ${f.what}`, bad: false });
  return lines;
}
