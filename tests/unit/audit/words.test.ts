import { describe, expect, it } from 'vitest';
import { actionWords, fieldWords, valueWords } from '@/lib/core/audit/words';

describe('an audit in words', () => {
  it.each([
    ['unit.edited', 'Changed'],
    ['kitchen.archived', 'Taken out of use'],
    ['task.rule_changed', 'Rule changed'],
  ])('%s: %s', (action, words) => expect(actionWords(action)).toBe(words));

  it.each([
    ['serviceHours', 'service hours'],
    ['setPointK', 'set point'],
    ['energyPricePerKwh', 'energy price'],
    ['name', 'name'],
  ])('%s: %s', (field, words) => expect(fieldWords(field)).toBe(words));

  it.each([
    [null, 'nothing'],
    ['', 'nothing'],
    [0, '0'],
    [false, 'no'],
    [['flammable'], '["flammable"]'],
    ['x'.repeat(90), `${'x'.repeat(80)}…`],
  ])('%j: %s', (value, words) => expect(valueWords(value)).toBe(words));
});
