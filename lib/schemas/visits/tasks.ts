import { z } from 'zod';
import { text } from '../values/text';
import { CalendarError, isDayRule, typedRule, weeksRule } from '../../core/calendar';
import { LIMITS } from '../../core/equipment/limits';
import { Reason, Version, FreeText } from '../values/fields';
import { LocalDateField } from '../values/days';

const [LEAST, MOST] = LIMITS.weeks;
const Weeks = z
  .number({ error: 'Write the weeks as a whole number.' })
  .int('Whole weeks.')
  .min(LEAST, `At least ${LEAST} week.`)
  .max(MOST, `At most ${MOST} weeks.`);

/** A rule is given as weeks with an optional weekday, or as an RFC 5545 rule where weeks cannot say it. */
const entry = {
  form: z.enum(['weeks', 'rule']).optional().default('weeks'),
  weeks: Weeks.optional(),
  weekday: z.number().int().min(0).max(6).optional(),
  ruleText: FreeText(300),
  anchor: z.enum(['last_completed', 'calendar'], { error: 'Choose one.' }),
  firstDueOn: LocalDateField.optional(),
};
type Entry = z.output<z.ZodObject<typeof entry>>;

function withRule<T extends Entry>({ form, weeks, weekday, ruleText, ...rest }: T, ctx: z.RefinementCtx) {
  const fail = (path: string, message: string) => {
    ctx.addIssue({ code: 'custom', path: [path], message });
    return z.NEVER;
  };
  if (form === 'weeks') {
    if (weeks === undefined) return fail('weeks', 'Write how many weeks lie between two times.');
    return { ...rest, rule: weeksRule(weeks, weekday as 0 | undefined) };
  }
  if (ruleText === '') return fail('ruleText', 'Write the rule, for instance FREQ=MONTHLY;BYDAY=1TU.');
  try {
    const rule = typedRule(ruleText);
    return isDayRule(rule) && !rule.timed
      ? { ...rest, rule: rule.text }
      : fail(
          'ruleText',
          'A task cannot come round by the hour. Use DAILY, WEEKLY, MONTHLY or YEARLY, without BYHOUR, BYMINUTE or BYSECOND.',
        );
  } catch (e) {
    if (e instanceof CalendarError) return fail('ruleText', e.message);
    throw e;
  }
}

const bounds = { minWeeks: Weeks, maxWeeks: Weeks };
const ordered = (b: { minWeeks: number; maxWeeks: number }) => b.maxWeeks >= b.minWeeks;
const ORDER = { path: ['maxWeeks'], message: 'The longest interval is shorter than the shortest.' };

export const NewTask = z
  .object({ unitId: z.uuid(), kindKey: text({ error: 'Choose what is to be done.' }).min(1, 'Choose what is to be done.'), ...entry })
  .transform(withRule);
export type NewTask = z.output<typeof NewTask>;

export const EditRule = z
  .object({
    taskId: z.uuid(),
    version: Version,
    ...entry,
    ...bounds,
    reason: Reason('Say why the rule changes; it stays with the history.'),
  })
  .refine(ordered, ORDER)
  .transform(withRule);
export type EditRule = z.output<typeof EditRule>;

export const LockRule = z.object({
  taskId: z.uuid(),
  version: Version,
  lock: z.enum(['lock', 'unlock']),
  reason: Reason('Say why; it stays with the history.'),
});
export type LockRule = z.output<typeof LockRule>;

export const RemoveTask = z.object({ taskId: z.uuid(), version: Version, reason: Reason('Say why it is taken off.') });
export type RemoveTask = z.output<typeof RemoveTask>;

/** What the owner makes of a change that evidence made: keep it, or go back to the rule before it. */
export const ReviewChange = z.discriminatedUnion('verdict', [
  z.object({ changeId: z.uuid(), verdict: z.literal('accepted') }),
  z.object({ changeId: z.uuid(), verdict: z.literal('overruled'), reason: Reason('Say why it is overruled; it stays with the history.') }),
]);
export type ReviewChange = z.output<typeof ReviewChange>;

const WholeMinutes = z
  .number({ error: 'Write the minutes.' })
  .int('Whole minutes.')
  .min(1, 'At least a minute.')
  .max(600, 'At most ten hours.');

/** A kind of task of the shop's own. */
const kind = {
  label: text({ error: 'Give it a name.' }).min(3, 'At least 3 characters.').max(60, 'At most 60 characters.'),
  minutes: WholeMinutes,
  lowSide: z.boolean().optional().default(false),
  defaultWeeks: Weeks,
  ...bounds,
};
const inside = (k: { defaultWeeks: number; minWeeks: number; maxWeeks: number }) =>
  k.defaultWeeks >= k.minWeeks && k.defaultWeeks <= k.maxWeeks;
const INSIDE = { path: ['defaultWeeks'], message: 'Lies outside the shortest and longest interval.' };
export const NewTaskKind = z.object(kind).refine(ordered, ORDER).refine(inside, INSIDE);
export type NewTaskKind = z.output<typeof NewTaskKind>;
export const EditTaskKind = z
  .object({ key: text(), active: z.boolean().optional().default(false), ...kind })
  .refine(ordered, ORDER)
  .refine(inside, INSIDE);
export type EditTaskKind = z.output<typeof EditTaskKind>;

export const SettleJob = z.object({ jobId: z.uuid(), as: z.enum(['done', 'declined']), note: FreeText(500) });

/** The changes of a group as the page showed them, so that none is kept unseen. */
export const AcceptChanges = z.object({
  changeIds: text()
    .transform((ids) => ids.split(' ').filter(Boolean))
    .pipe(z.array(z.uuid()).min(1, 'Nothing was chosen.').max(500)),
});
export type AcceptChanges = z.output<typeof AcceptChanges>;
