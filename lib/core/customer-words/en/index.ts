import { PAGE_EN } from './page';
import { QUARTER_EN } from './quarter';
import { QUOTE_EN } from './quote';
import { REPORT_EN } from './report';
import { VISIT_EN } from './visit';

/** Every text that a customer reads, in English. Another language is a folder of the same shape beside this one. */
export const EN = { ...REPORT_EN, yours: PAGE_EN, quote: QUOTE_EN, quarter: QUARTER_EN, visit: VISIT_EN };
export type CustomerWords = typeof EN;
