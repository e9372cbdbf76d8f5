import type { MeasureUnits } from '../measures/preferred';

/** What customers read in: those of the country whose rules and money the product starts from. */
export const FOR_CUSTOMERS: MeasureUnits = { temperature: 'F', pressure: 'psig', mass: 'oz' };
