import { z } from 'zod';

/** Driving minutes as the lines of a file. */
export const TravelFile = z.object({
  csv: z
    .string('Choose a file or paste its lines.')
    .max(5_000_000, 'Larger than 5 MB. Split it.')
    .refine((s) => s.trim() !== '', 'Choose a file or paste its lines.'),
});
export const ForgetTravel = z.object({});
