import { z } from 'zod';

/** A fleet as a file or as pasted lines. */
export const CheckFleet = z
  .object({
    file: z.instanceof(File, { error: 'Choose a file or paste its lines.' }).optional(),
    pasted: z.string().max(10_000_000, 'Too much to paste; choose the file instead.').optional(),
  })
  .refine((f) => (f.file && f.file.size > 0) || f.pasted?.trim(), { path: ['file'], message: 'Choose a file or paste its lines.' })
  .refine((f) => !f.file || f.file.size <= 10_000_000, { path: ['file'], message: 'The file is larger than 10 MB. Split it.' });
export type CheckFleet = z.output<typeof CheckFleet>;

export const RunFleet = z.object({ runId: z.uuid() });

/** One decision about a sheet: which sheet, what a column is, what a value stands for, or an answer. */
export const SheetChoice = z.object({
  runId: z.uuid(),
  of: z.enum(['sheet', 'column', 'answer', 'kind', 'placement', 'refrigerant']),
  key: z.string().max(300),
  value: z.string().max(100),
});
export type SheetChoice = z.output<typeof SheetChoice>;
