import type { LocalDate } from './local-date';

/** A `date` column arrives as midnight UTC; these two are the only way across. */
export const toLocalDate = (d: Date): LocalDate => d.toISOString().slice(0, 10) as LocalDate;
export const fromLocalDate = (d: LocalDate): Date => new Date(`${d}T00:00:00Z`);
