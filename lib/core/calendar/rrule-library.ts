import * as library from 'rrule';
import type { RRule as RRuleType } from 'rrule';
import { CalendarError, fromDay, type LocalDate } from './local-date';
import type { Rule } from './rule';

// Bundlers see the named exports; Node sees the CommonJS build under `default`.
const RRule =
  (library as unknown as { RRule?: typeof RRuleType; default?: { RRule: typeof RRuleType } }).RRule ??
  (library as unknown as { default: { RRule: typeof RRuleType } }).default.RRule;

const DAY = 86_400_000;

/**
 * The rrule package on floating time: a wall-clock time is carried in the UTC fields of a Date, so the zone of the
 * machine and of the kitchen stay out of it. `startMs` is such a floating instant.
 */
function floating(rule: Rule, startMs: number): RRuleType {
  try {
    // UNTIL is a floating day here; let the whole day count.
    const text = rule.text.replace(/UNTIL=(\d{8})(T\d{6}Z?)?/, 'UNTIL=$1T235959Z');
    return new RRule({ ...RRule.parseString(text), dtstart: new Date(startMs) });
  } catch (cause) {
    throw new CalendarError('invalid_rule', `"${rule.text}" cannot be expanded: ${(cause as Error).message}`);
  }
}

export type LocalDateTime = { date: LocalDate; time: string };

/** The first `limit` wall-clock times of a rule that starts at `start`; for rules of any frequency. */
export function wallTimes(rule: Rule, start: LocalDateTime, limit: number): LocalDateTime[] {
  const result: LocalDateTime[] = [];
  if (limit < 1) return result;
  const startMs = Date.parse(`${start.date}T${start.time}:00Z`);
  floating(rule, startMs).all((d) => {
    const text = d.toISOString();
    result.push({ date: fromDay(Math.floor(d.getTime() / DAY)), time: text.slice(11, 16) });
    return result.length < limit;
  });
  return result;
}

export function libraryText(rule: Rule): string {
  return floating(rule, 0).toText();
}
