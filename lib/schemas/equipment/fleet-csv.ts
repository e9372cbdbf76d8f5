import { z } from 'zod';
import { manyLines } from '../../core/wording/plain-text';

export const MOST_FLEET_BYTES = 10_000_000;

/** A fleet as a file or as pasted lines. */
export const CheckFleet = z
  .object({
    file: z.instanceof(File, { error: 'Choose a file or paste its lines.' }).optional(),
    /** Whose units the pasted lines are, a line each. */
    kitchen: z.uuid().optional(),
    pasted: z.string().overwrite(manyLines).max(10_000_000, 'Too much to paste; choose the file instead.').optional(),
  })
  .refine((f) => !f.kitchen || f.pasted?.trim(), { path: ['pasted'], message: 'Type a line for each unit.' })
  .refine((f) => f.kitchen || (f.file && f.file.size > 0) || f.pasted?.trim(), {
    path: ['file'],
    message: 'Choose a file or paste its lines.',
  })
  .refine((f) => !f.file || f.file.size <= MOST_FLEET_BYTES, { path: ['file'], message: 'The file is larger than 10 MB. Split it.' });
export type CheckFleet = z.output<typeof CheckFleet>;

export const RunFleet = z.object({ runId: z.uuid() });

/** One decision about a sheet: which sheet, what a column is, what a value stands for, or an answer. */
export const SheetChoice = z.object({
  runId: z.uuid(),
  of: z.enum(['sheet', 'column', 'answer', 'kind', 'placement', 'refrigerant']),
  key: z.string().overwrite(manyLines).max(300),
  value: z.string().overwrite(manyLines).max(100),
});
export type SheetChoice = z.output<typeof SheetChoice>;
