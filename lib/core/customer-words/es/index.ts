import type { CustomerWords } from '../en';
import { PAGE_ES } from './page';
import { QUARTER_ES } from './quarter';
import { QUOTE_ES } from './quote';
import { REPORT_ES } from './report';
import { VISIT_ES } from './visit';

/** Every text that a customer reads, in Spanish. */
export const ES: CustomerWords = { ...REPORT_ES, yours: PAGE_ES, quote: QUOTE_ES, quarter: QUARTER_ES, visit: VISIT_ES };
