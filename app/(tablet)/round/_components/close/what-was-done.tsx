import type { Me, VisitOnFile } from '@/lib/core/tablet';
import type { SigningWords } from '@/lib/core/customer-words/signing';
import { whatWasDone } from '@/lib/core/tablet/what-was-done';
import { Card } from '../touch';

/** What whoever signs puts a name to: unit by unit, found, done, left, and food that was too warm. */
export function WhatWasDone({ visit, me, say }: { visit: VisitOnFile; me: Me; say: SigningWords }) {
  const said = visit.units.map((unit) => ({ unit, lines: whatWasDone(visit, unit, me, say) })).filter((u) => u.lines.length > 0);
  return (
    <Card title={say.heading}>
      {said.length === 0 ? <p>{say.nothing}</p> : null}
      <ul className="flex flex-col gap-2">
        {said.map(({ unit, lines }) => (
          <li key={unit.id}>
            <b>{unit.name}</b>
            <ul className="list-disc pl-5">
              {lines.map((line) => (
                <li key={line.text} className={line.bad ? 'font-bold text-alarm' : ''}>
                  {line.text}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
      {visit.entries.parts.length > 0 ? (
        <p className="mt-2">{say.parts(visit.entries.parts.map((p) => `${p.quantity} × ${p.what}`).join(', '))}</p>
      ) : null}
    </Card>
  );
}
