import { z } from 'zod';
import { manyLines } from '../../core/wording/plain-text';

/** Driving minutes as the lines of a file. */
export const TravelFile = z.object({
  csv: z
    .string('Choose a file or paste its lines.')
    .overwrite(manyLines)
    .max(5_000_000, 'Larger than 5 MB. Split it.')
    .refine((s) => s.trim() !== '', 'Choose a file or paste its lines.'),
});
export const ForgetTravel = z.object({});
