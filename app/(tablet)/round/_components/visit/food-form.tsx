import { useState } from 'react';
import { foodTyped, unitOf, type Me, type VisitOnFile } from '@/lib/core/tablet';
import { doubtKey } from '../../_lib/reading-draft';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { Chip, TouchField, TouchSelect } from '../touch';
import { Doubts } from '../unit/doubts';
import { Outside } from '../unit/outside';

const LABEL = 'Food temperature';
const EMPTY = { degrees: '', toldTo: '', asked: false, answers: {} as Record<string, string> };

/** How warm, and who was told. An odd number is asked about once the rest stands. */
export function FoodForm({ visit, unitId, me }: { visit: VisitOnFile; unitId?: string; me: Me }) {
  const { write, busy, now } = useWrite(visit.id);
  const of = unitId ?? '';
  const [unit, setUnit] = useState(of);
  const { draft: f, setDraft: set, clear } = useDraft(`${visit.id}:${of}:food`, EMPTY);
  const { boxK, outside, question } = foodTyped(f.degrees, me);
  const doubt = question ? { field: 'food', label: LABEL, question } : null;
  const answer = doubt ? (f.answers[doubtKey(doubt)] ?? '') : '';
  const waitsForAnswer = doubt !== null && !answer;
  const asks = f.asked && waitsForAnswer;
  const whole = [unit, boxK !== null, !outside, f.toldTo.trim()].every(Boolean);
  const degreesId = `food-degrees-${of}`;
  const correct = () => document.getElementById(degreesId)?.focus();
  const add = async () => {
    if (boxK === null) return;
    if (waitsForAnswer) return set({ ...f, asked: true });
    const note = question ? `${question} ${answer}` : '';
    if (await write('food_warning.add', { unitId: unit, boxK, toldTo: f.toldTo.trim(), toldAt: now(), note })) clear();
  };
  return (
    <div className="flex flex-col gap-3">
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
          id={degreesId}
          label={`${LABEL} (${unitOf('boxK', me)})`}
          inputMode="decimal"
          value={f.degrees}
          onChange={(e) => set({ ...f, degrees: e.target.value, asked: false })}
        />
        <TouchField
          id={`food-told-${of}`}
          label="Told to"
          value={f.toldTo}
          onChange={(e) => set({ ...f, toldTo: e.target.value })}
          maxLength={200}
        />
      </div>
      {outside ? <Outside label={LABEL} field="boxK" text={f.degrees} me={me} onCorrect={correct} /> : null}
      {doubt && f.asked ? (
        <Doubts
          draftKey={`${visit.id}:${of}:food`}
          doubts={[doubt]}
          answers={f.answers}
          onAnswer={(key, said) => set({ ...f, answers: { ...f.answers, [key]: said } })}
          onCorrect={correct}
        />
      ) : null}
      <div className="flex flex-wrap items-center gap-2">
        <Chip disabled={busy || !whole || asks} onClick={() => void add()}>
          Told them just now
        </Chip>
        {asks ? <p className="text-sm">Answer the question first.</p> : null}
      </div>
    </div>
  );
}
