import { z } from 'zod';
import { WAYS } from '../../core/choices';
import { Reason } from '../values/fields';

const money = (most: number) =>
  z.coerce
    .number({ error: 'Write a number.' })
    .min(0, 'Not below nothing.')
    .max(most, `At most ${most.toLocaleString('en-US')}.`);
const years = z.coerce.number({ error: 'Write the years.' }).min(0.5, 'At least half a year.').max(60, 'At most 60.');
const blank = <T extends z.ZodType>(schema: T) =>
  z
    .union([z.literal('').transform(() => null), schema])
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
  refrigerantPerKg: money(10_000),
  interest: z.coerce
    .number({ error: 'Write a percentage.' })
    .min(0, 'Not below nothing.')
    .max(50, 'At most 50.')
    .transform((p) => p / 100),
};

/** What is asked to compare the ways, as it stands in the page's address. */
export const ChoiceFigures = z
  .object(fields)
  .refine((f) => f.coilPrice !== null || f.unitPrice !== null, { path: ['coilPrice'], message: 'Give the price of a coil or of a unit.' });
export type ChoiceFigures = z.output<typeof ChoiceFigures>;

export const DecideUnit = z.object({
  ...fields,
  unitId: z.uuid(),
  way: z.enum(WAYS, { error: 'Choose a way.' }),
  reason: Reason('Say why.'),
});
export type DecideUnit = z.output<typeof DecideUnit>;

export const LookAgain = z.object({ id: z.uuid(), note: Reason('Say what you think of it today.') });
export type LookAgain = z.output<typeof LookAgain>;
