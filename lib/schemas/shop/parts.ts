import { z } from 'zod';
import { FileLines, FreeText } from '../values/fields';
import { text } from '../values/text';

const Count = z.number('A whole number.').int('A whole number.').min(0, 'Not below zero.').max(100_000, 'At most 100,000.').optional();

export const SavePart = z.object({
  number: text('Give it a number.').min(1, 'Give it a number.').max(60, 'At most 60 characters.'),
  name: text('Give it a name.').min(1, 'Give it a name.').max(200, 'At most 200 characters.'),
  price: z
    .number('Write a price.')
    .min(0, 'A price is zero or more.')
    .max(1_000_000, 'At most 1,000,000.')
    .transform((x) => Math.round(x * 100)),
  inVan: Count,
  inShop: Count,
  warrantyMonths: z.number('Whole months.').int('Whole months.').min(0, 'Not below zero.').max(600, 'At most 600 months.').optional(),
});
export type SavePart = z.output<typeof SavePart>;

/** Pieces that change their place: "shop", "van" (nobody said whose), a technician's van by id; nothing for bought, or gone. */
const Place = z
  .union([z.literal(''), z.literal('shop'), z.literal('van'), z.uuid()])
  .optional()
  .default('');
export const MovePart = z
  .object({
    number: text('Which part?').min(1, 'Which part?').max(60, 'At most 60 characters.'),
    pieces: z.number('How many?').int('Whole pieces.').min(1, 'At least one.').max(100_000, 'At most 100,000.'),
    from: Place,
    to: Place,
  })
  .refine((m) => m.from !== m.to, { path: ['to'], message: 'Choose two places.' });
export type MovePart = z.output<typeof MovePart>;

export const PartFile = z.object({ csv: FileLines(2) });

export const AddWarranty = z.object({
  jobId: z.uuid(),
  unitId: z.uuid('Choose a unit.'),
  what: text('Say what is covered.').min(2, 'Say what is covered.').max(200, 'At most 200 characters.'),
  until: z.iso.date('Give a date as year-month-day.'),
  note: FreeText(200),
});
export type AddWarranty = z.output<typeof AddWarranty>;
