import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Prisma } from '../../../database/client';

type RuleChange = Prisma.RuleChangeGetPayload<object>;

/** A change of a rule as it is told: moments in epoch milliseconds, dates as dates. */
export const changeOnFile = ({ id, at, kind, fromRule, toRule, fromDueOn, toDueOn, reason, review }: RuleChange) => ({
  id,
  at: at.getTime(),
  kind,
  fromRule,
  toRule,
  fromDueOn: fromDueOn && toLocalDate(fromDueOn),
  toDueOn: toDueOn && toLocalDate(toDueOn),
  reason,
  review,
});
