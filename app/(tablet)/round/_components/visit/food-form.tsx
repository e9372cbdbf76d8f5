import { useState } from 'react';
import { canBeFiled, foodQuestion, fromOwn, typedNumber, unitOf, type Me, type VisitOnFile } from '@/lib/core/tablet';
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
  const [unit, setUnit] = useState(unitId ?? '');
  const { draft: f, setDraft: set, clear } = useDraft(`${visit.id}:${unitId ?? ''}:food`, EMPTY);
  const typed = typedNumber(f.degrees);
  const boxK = typed === null ? null : fromOwn('boxK', typed, me);
  const outside = boxK !== null && !canBeFiled('boxK', boxK);
  const question = boxK === null || outside ? null : foodQuestion(boxK);
  const doubt = question ? { field: 'food', label: LABEL, question } : null;
  const answer = doubt ? (f.answers[doubtKey(doubt)] ?? '') : '';
  const waitsForAnswer = doubt !== null && !answer;
  const degreesId = `food-degrees-${unitId ?? ''}`;
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
          id={`food-told-${unitId ?? ''}`}
          label="Told to"
          value={f.toldTo}
          onChange={(e) => set({ ...f, toldTo: e.target.value })}
          maxLength={200}
        />
      </div>
      {outside ? <Outside label={LABEL} field="boxK" text={f.degrees} me={me} onCorrect={correct} /> : null}
      {doubt && f.asked ? (
        <Doubts
          draftKey={`${visit.id}:${unitId ?? ''}:food`}
          doubts={[doubt]}
          answers={f.answers}
          onAnswer={(key, said) => set({ ...f, answers: { ...f.answers, [key]: said } })}
          onCorrect={correct}
        />
      ) : null}
      <div className="flex flex-wrap items-center gap-2">
        <Chip
          disabled={busy || !unit || boxK === null || outside || !f.toldTo.trim() || (f.asked && waitsForAnswer)}
          onClick={() => void add()}
        >
          Told them just now
        </Chip>
        {f.asked && waitsForAnswer ? <p className="text-sm">Answer the question first.</p> : null}
      </div>
    </div>
  );
}
