import { addMonths, type LocalDate } from '../calendar';

/** Last day of a warranty of so many months from a day. */
export const coveredUntil = (from: LocalDate, months: number): LocalDate => addMonths(from, months);
