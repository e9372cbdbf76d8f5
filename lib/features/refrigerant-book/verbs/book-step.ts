import 'server-only';
import { refrigerantLabel } from '../../../core/refrigerants/naming';
import type { SealedWork } from '../../../core/sealed/work';
import type { Tx } from '../../../database/client';
import { counterEntry } from './counter-entry';

type Step = { id: string; unitId: string; visitId: string; certificateId: string | null; overruledBy: string; overruledWhy: string };
type Given = {
  step: Step;
  /** The step that stood before, whose line in the book is taken back. */
  replacesId: string | null;
  work: SealedWork | null;
  weighed: { way: 'charged' | 'recovered'; kg: number } | null;
  at: Date;
  by: string;
  note: (message: string) => void;
};

/** Puts what a step weighed into the book under the step's own id, and takes back what the step before it had put there. */
export async function bookStep(db: Tx, { step, replacesId, work, weighed, at, by, note }: Given): Promise<void> {
  if (replacesId) {
    const before = await db.cylinderEntry.findFirst({ where: { stepId: replacesId, correctsId: null, corrected: null } });
    if (before) await counterEntry(db, before, { byUserId: by, at, note: 'Written anew on the repair record.' });
  }
  if (!weighed || (work?.step !== 'recover' && work?.step !== 'charge')) return;
  const cylinder = work.cylinderId === null ? null : await db.cylinder.findUnique({ where: { id: work.cylinderId } });
  if (!cylinder)
    return note(
      `The cylinder “${work.cylinderWords || 'not named'}” is not on file. Put it on file and enter ${Math.round(Math.abs(weighed.kg) * 1000)} g there.`,
    );
  const unit = await db.unit.findUniqueOrThrow({ where: { id: step.unitId }, select: { name: true, refrigerant: true } });
  if (unit.refrigerant !== cylinder.refrigerant)
    note(
      `${cylinder.label} holds ${refrigerantLabel(cylinder.refrigerant)}, but ${unit.name} runs on ${refrigerantLabel(unit.refrigerant)}.`,
    );
  if (cylinder.goneAt && cylinder.goneAt < at)
    return note(`${cylinder.label} was gone by then (${cylinder.goneWhy}); what was weighed is not in the book.`);
  const { id, ...own } = step;
  await db.cylinderEntry.create({
    data: {
      id,
      stepId: id,
      ...own,
      cylinderId: cylinder.id,
      way: weighed.way,
      kg: weighed.kg,
      grossBeforeKg: work.startKg,
      grossAfterKg: work.endKg,
      recoveredFor: work.step === 'recover' ? work.recoveredFor : null,
      byUserId: by,
      at,
    },
  });
}
