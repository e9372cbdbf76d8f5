import type { Language } from '../customer-words';
import type { QuoteLine } from '.';

/** A quote as it is read, on a page or on paper. */
export type QuoteOnFile = {
  version: number;
  job: {
    number: number;
    kitchen: { name: string; address: string; timeZone: string; customer: { name: string; language: Language } };
    units: readonly { unit: { name: string; tag: string } }[];
  };
  lines: QuoteLine[];
  taxPercent: number;
  currency: string;
  reason: string;
  validUntil: Date;
  answer: 'accepted' | 'declined' | null;
  answeredBy: string;
};
