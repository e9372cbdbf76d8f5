import { useCallback, useMemo, useState } from 'react';
import { fieldsOutside, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { doubtKey, EMPTY_DRAFT, enteredOf, gaugeOf, questionedOf, valuesOf, type ReadingDraft } from './reading-draft';
import { useSnapshot } from './tablet-context';
import { useAfterPaint } from './use-after-paint';
import { useDraft } from './use-draft';
import { useEstimator } from './use-estimator';
import { useRunClock } from './use-run-clock';
import { useWrite } from './use-write';

type Asked = { visit: VisitOnFile; unit: UnitOnFile; phase: 'before' | 'after'; replaces: string | null; onSaved: () => void };

/** A reading as it is typed: kept, questioned, and saved once it stands. */
export function useReading({ visit, unit, phase, replaces, onSaved }: Asked) {
  const me = useSnapshot((s) => s.me);
  const { write, busy } = useWrite(visit.id);
  const { draft, setDraft, clear, kept } = useDraft<ReadingDraft>(`${visit.id}:${unit.id}:${phase}`, EMPTY_DRAFT);
  const { minutes } = useRunClock(visit.id, unit.id);
  const [startedAt] = useState(() => Date.now());
  const estimator = useEstimator(unit.refrigerant);
  const typed = Object.values(draft.text).some(Boolean);
  // What the clock counted stands for what nobody typed.
  const counted = phase === 'after' && minutes !== null && !draft.text.steadyMinutes ? String(minutes) : null;
  const text = useMemo(() => (counted === null ? draft.text : { ...draft.text, steadyMinutes: counted }), [draft.text, counted]);
  const full = useMemo(() => (typed ? { ...draft, text } : draft), [draft, text, typed]);
  const drawn = useAfterPaint(full);
  const readingOf = useCallback(
    (d: ReadingDraft) => {
      const values = me ? valuesOf(d, me) : {};
      return { phase, at: startedAt, values, ...gaugeOf(values, me) };
    },
    [me, phase, startedAt],
  );
  const reading = useMemo(() => readingOf(drawn), [readingOf, drawn]);
  const outside = useMemo(() => fieldsOutside(reading.values), [reading]);
  const doubts = useMemo(
    // Nothing typed, nothing to doubt: a unit opens without the equations.
    () =>
      Object.keys(reading.values).length === 0
        ? []
        : (estimator?.doubtsOf(unit, visit.kitchen, reading).filter((d) => !outside.some((f) => f === d.field)) ?? []),
    [estimator, unit, visit.kitchen, reading, outside],
  );
  /** True once it is on the disk. */
  const save = useCallback(async (): Promise<boolean> => {
    if (!me) return false;
    const values = valuesOf(full, me);
    if (Object.keys(values).length === 0 || fieldsOutside(values).length > 0) return false;
    // Of what stands there now, even if the last key has not been drawn yet.
    const asked = estimator?.doubtsOf(unit, visit.kitchen, readingOf(full)) ?? [];
    if (asked.some((d) => !full.answers[doubtKey(d)])) return false;
    const saved = await write('reading.add', {
      unitId: unit.id,
      phase,
      values,
      replaces,
      entered: enteredOf(full, me),
      questioned: questionedOf(full, asked),
      ...gaugeOf(values, me),
    });
    if (!saved) return false;
    clear();
    onSaved();
    return true;
  }, [me, full, estimator, unit, visit.kitchen, readingOf, write, phase, replaces, clear, onSaved]);
  return {
    draft,
    setDraft,
    text,
    typed,
    kept,
    reading,
    outside,
    doubts,
    unanswered: doubts.filter((d) => !draft.answers[doubtKey(d)]),
    busy,
    save,
  };
}
