import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import type { RuleChangeKind } from '../../../core/intervals/changes';
import { STORED_CHANGE_EVIDENCE, type ChangeEvidence } from '../../../database/stored/records';
import type { Prisma, Tx } from '../../../database/client';

export type NewChange = {
  taskId: string; at: Date; kind: RuleChangeKind; fromRule: string; toRule: string; fromDueOn: LocalDate | null; toDueOn: LocalDate | null;
  reason: string; evidence: ChangeEvidence; modelVersion: string; byUserId: string | null; visitId: string | null;
}; // prettier-ignore

export const changeRow = (c: NewChange): Prisma.RuleChangeUncheckedCreateInput => ({
  ...c,
  fromDueOn: c.fromDueOn && fromLocalDate(c.fromDueOn),
  toDueOn: c.toDueOn && fromLocalDate(c.toDueOn),
  evidence: STORED_CHANGE_EVIDENCE.write(c.evidence),
});

export const saveChange = (db: Tx, change: NewChange) => db.ruleChange.create({ data: changeRow(change) });
