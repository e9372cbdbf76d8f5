import { whole } from '../../core/measures/figures';
import { z } from 'zod';
import { WAYS } from '../../core/choices';
import { POUND_KG } from '../../core/measures';
import { Reason } from '../values/fields';

const money = (most: number) =>
  z
    .number({ error: 'Write a number.' })
    .min(0, 'Not below nothing.')
    .max(most, `At most ${whole(most)}.`);
const years = z.number({ error: 'Write the years.' }).min(0.5, 'At least half a year.').max(60, 'At most 60.');
const blank = <T extends z.ZodType>(schema: T) =>
  z
    .union([z.literal('').transform(() => null), schema], { error: 'Write a number.' })
    .optional()
    .default(null as never);

const fields = {
  coilPrice: blank(money(1_000_000)),
  coilYears: years,
  unitPrice: blank(money(1_000_000)),
  unitYears: years,
  leftYears: years,
  useKwh: blank(money(500_000)),
  newKwh: blank(money(500_000)),
  callOut: money(100_000),
  refrigerantPerKg: blank(money(10_000)),
  refrigerantPerLb: blank(money(10_000)),
  interest: z
    .number({ error: 'Write a percentage.' })
    .min(0, 'Not below nothing.')
    .max(50, 'At most 50.')
    .transform((p) => p / 100),
};

type Priced = { refrigerantPerKg: number | null; refrigerantPerLb: number | null };

/** A refrigerant's price is typed by the pound or by the kilogram, and kept by the kilogram. */
function perKilogram<T extends Priced>({ refrigerantPerLb, refrigerantPerKg, ...rest }: T, ctx: z.RefinementCtx) {
  const price = refrigerantPerKg ?? (refrigerantPerLb === null ? null : refrigerantPerLb / POUND_KG);
  if (price !== null) return { ...rest, refrigerantPerKg: price };
  for (const key of ['refrigerantPerKg', 'refrigerantPerLb']) ctx.addIssue({ code: 'custom', path: [key], message: 'Write a number.' });
  return z.NEVER;
}

/** What is asked to compare the ways, as it stands in the page's address. */
export const ChoiceFigures = z
  .object(fields)
  .refine((f) => f.coilPrice !== null || f.unitPrice !== null, { path: ['coilPrice'], message: 'Give the price of a coil or of a unit.' })
  .transform(perKilogram);
export type ChoiceFigures = z.output<typeof ChoiceFigures>;

export const DecideUnit = z
  .object({
    ...fields,
    unitId: z.uuid(),
    way: z.enum(WAYS, { error: 'Choose a way.' }),
    reason: Reason('Say why.'),
  })
  .transform(perKilogram);
export type DecideUnit = z.output<typeof DecideUnit>;

export const LookAgain = z.object({ id: z.uuid(), note: Reason('Say what you think of it today.') });
export type LookAgain = z.output<typeof LookAgain>;
