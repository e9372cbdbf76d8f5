import { z } from 'zod';
import { FileLines } from '../values/fields';

/** Driving minutes as the lines of a file. */
export const TravelFile = z.object({ csv: FileLines(5) });
export const ForgetTravel = z.object({});
