import { z } from 'zod';
import { manyLines } from '../../core/wording/plain-text';
import { longText, text } from './text';
import { timeZoneMeant } from '../../core/calendar/is-time-zone';
import { LIMITS, NAME_MAX, TEXT_MAX, within, type Limited, type Span } from '../../core/equipment/limits';
import { isShortPosition, readPosition } from '../../core/position';
import { readDayLines } from '../../core/hours';
import type { WeeklyWindow } from '../../core/visits/service-hours';
import { heldTo, possibleIn } from '../../core/measures/possible';
import { entryUnit, fromForm, unitsOfMeasure, type Measure } from '../../core/measures/entry-units';

/** Fields that forms share. A form sends empty fields as nothing at all. */

export const Name = (what: string) =>
  text({ error: `Give ${what} a name.` })
    .min(1, `Give ${what} a name.`)
    .max(NAME_MAX, `At most ${NAME_MAX} characters.`);
/** What is short stands on one line. */
const ONE_LINE_MAX = 200;
export const FreeText = (max = TEXT_MAX) =>
  (max <= ONE_LINE_MAX ? text() : longText()).max(max, `At most ${max} characters.`).optional().default('');
export const OptionalEmail = z
  .union([z.literal(''), z.email('That is not an e-mail address.')])
  .optional()
  .default('');
export const Email = z
  .email({ error: 'Give an e-mail address.' })
  .max(200, 'At most 200 characters.')
  .transform((e) => e.toLowerCase());
export const TimeZone = text({ error: 'Choose a time zone.' }).transform((typed, ctx) => {
  const zone = timeZoneMeant(typed);
  if (zone) return zone;
  ctx.addIssue({ code: 'custom', message: 'Not a time zone. Write it like America/Chicago, or the city alone.' });
  return z.NEVER;
});
export const Version = z.coerce.number().int();
export const Reason = (ask: string) => longText({ error: ask }).min(3, ask).max(500, 'At most 500 characters.');
/** The lines of a file, chosen or pasted. */
export const FileLines = (mostMegabytes: number) =>
  z
    .string('Choose a file or paste its lines.')
    .overwrite(manyLines)
    .max(mostMegabytes * 1_000_000, `Larger than ${mostMegabytes} MB. Split it.`)
    .refine((s) => s.trim() !== '', 'Choose a file or paste its lines.');
/** A checkbox: sent as "on" or not at all. */
export const Ticked = z.boolean().optional().default(false);

/** A number held to the limits of its field, in the same unit as on file. */
export function Bounded(limit: Limited, unit = '') {
  const [lo, hi] = LIMITS[limit];
  return z
    .number({ error: 'Write a number.' })
    .refine((x) => within([lo, hi], x), `Between ${lo} and ${hi}${unit ? ` ${unit}` : ''}.`)
    .optional();
}

/**
 * A measured value with the unit it was typed in, so that the server reads the number as the person saw it, and what was
 * on file (SI) when the form was drawn.
 * Empty gives null; otherwise SI.
 */
export function Measured(span: Span, measure: Measure) {
  const units = unitsOfMeasure(measure);
  return z
    .object({
      value: z.number({ error: 'Write a number.' }).optional(),
      unit: z.enum(Object.keys(units)),
      onFile: z.number().optional(),
    })
    .transform(({ value, unit, onFile }, ctx): number | null => {
      if (value === undefined) return null;
      const { fromSi, label } = entryUnit(measure, unit);
      const si = fromForm(measure, unit, value, onFile);
      const held = heldTo(span, si);
      if (held !== null) return held;
      const [lo, hi] = possibleIn(span, fromSi);
      ctx.addIssue({ code: 'custom', path: ['value'], message: `Between ${lo} and ${hi} ${label} is possible.` });
      return z.NEVER;
    });
}

export const DAY_KEYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
/** Hours of a week, a line of text for each day. */
const Day = text().optional();
export const WeekHours = z
  .object({ mon: Day, tue: Day, wed: Day, thu: Day, fri: Day, sat: Day, sun: Day })
  .optional()
  .transform((days, ctx): WeeklyWindow[] => {
    const read = readDayLines(DAY_KEYS.map((key) => days?.[key] ?? ''));
    if ('windows' in read) return read.windows;
    for (const { at, problem } of read.problems) ctx.addIssue({ code: 'custom', path: [DAY_KEYS[at]], message: problem });
    return [];
  });

const Pasted = text().max(300, 'At most 300 characters.').optional();

/** A position as people paste it; null where none is given. */
export const PositionField = Pasted.transform((typed, ctx) => {
  const read = readPosition(typed ?? '');
  if ('position' in read) return read.position;
  ctx.addIssue({ code: 'custom', message: read.problem });
  return z.NEVER;
});

/** The same, or a short plus code, which is read near the shop. */
export const NearPositionField = Pasted.transform((typed = '', ctx) => {
  if (isShortPosition(typed)) return { shortCode: typed };
  const read = readPosition(typed);
  if ('position' in read) return read.position;
  ctx.addIssue({ code: 'custom', message: read.problem });
  return z.NEVER;
});
