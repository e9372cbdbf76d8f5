import { useMemo } from 'react';
import { certifiedFor, type Certified } from '@/lib/core/refrigerant-book/certificates';
import { recordState } from '@/lib/core/sealed/record';
import { NEEDS_CERTIFICATE, SEALED_STEPS, type SealedStep } from '@/lib/core/sealed/steps';
import type { SealedWork } from '@/lib/core/sealed/work';
import { dateAt } from '@/lib/core/calendar/at-offset';
import type { Me, UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { useTablet } from './tablet-context';
import { useDraft } from './use-draft';
import { useWrite } from './use-write';
import { NO_DRAFT, type Draft } from './sealed-draft';

/** The record of a unit on this visit, with what an earlier visit began, unless a new one is begun. */
export function useRecord(visit: VisitOnFile, unit: UnitOnFile, anew: boolean) {
  const here = useMemo(() => (visit.entries.sealed ?? []).filter((s) => s.unitId === unit.id), [visit.entries.sealed, unit.id]);
  return useMemo(() => recordState(here, anew ? null : (unit.openSealed ?? null)), [here, anew, unit.openSealed]);
}
export type Record_ = ReturnType<typeof useRecord>;

/** Whether the person may do a step on refrigerant today, by the kitchen's calendar. */
export function useCertified(me: Me, unit: UnitOnFile, visit: VisitOnFile): Certified {
  const tablet = useTablet();
  return certifiedFor(me.certificates ?? [], unit, dateAt(Date.parse(tablet.now()), visit.kitchen.utcOffsetMinutes));
}

type About = { visit: VisitOnFile; unit: UnitOnFile; record: Record_; step: SealedStep; certified: Certified };

/** One step being typed, and its saving: done, or left out with a reason. */
export function useStep({ visit, unit, record, step, certified }: About) {
  const { write, busy, now } = useWrite(visit.id);
  const { draft, setDraft, clear, kept } = useDraft<Draft>(`${visit.id}:${unit.id}:sealed:${record.recordId ?? 'new'}:${step}`, NO_DRAFT);
  const needs = NEEDS_CERTIFICATE[step];
  const answered = lastAnswered(record);
  const overruledBy = draft.overruledBy ?? answered.by;
  const overruledWhy = draft.overruledWhy ?? answered.why;
  const answeredFor = overruledBy.trim() !== '' && overruledWhy.trim() !== '';
  const mayDo = !needs || certified.holds || answeredFor;
  const save = async (work: SealedWork | null, skippedWhy = ''): Promise<boolean> => {
    const overruled = work !== null && needs && !certified.holds;
    const saved = await write('sealed.step', {
      recordId: record.recordId ?? crypto.randomUUID(),
      unitId: unit.id,
      step,
      work,
      skippedWhy,
      certificateId: work !== null && needs && certified.holds ? certified.certificate.id : null,
      overruledBy: overruled ? overruledBy.trim() : '',
      overruledWhy: overruled ? overruledWhy.trim() : '',
      note: work === null ? '' : (draft.note ?? '').trim(),
    });
    // A first step's draft has no record to belong to; the others stay, should the step be written anew.
    if (saved && record.recordId === null) clear();
    return saved;
  };
  const put = (key: string, text: string) => setDraft({ ...draft, [key]: text });
  return { draft, setDraft, put, kept, busy, now, needs, mayDo, overruledBy, overruledWhy, save };
}
export type StepInHand = ReturnType<typeof useStep>;

/** Who answered for the step before, so that nobody types it twice. */
function lastAnswered({ steps }: Record_): { by: string; why: string } {
  const last = SEALED_STEPS.flatMap((s) => steps.get(s) ?? []).findLast((s) => s.overruledBy !== '');
  return { by: last?.overruledBy ?? '', why: last?.overruledWhy ?? '' };
}
