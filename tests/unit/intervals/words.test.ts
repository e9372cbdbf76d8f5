import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { dayInWords, spanInWords } from '@/lib/core/intervals/words';

describe('words of a reason', () => {
  it.each([
    [1.2, 'day'],
    [41, '41 days'],
    [497, '16 months'],
    [1687, '4.6 years'],
    [5000, '14 years'],
  ])('says a mean of %d days as %s', (days, expected) => {
    expect(spanInWords(days)).toBe(expected);
  });

  it('names a day as a kitchen would', () => {
    expect(dayInWords(localDate('2026-11-20'))).toBe('20 Nov 2026');
    expect(dayInWords(localDate('2027-01-01'))).toBe('1 Jan 2027');
  });
});
