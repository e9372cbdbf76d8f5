import { describe, expect, it } from 'vitest';
import { actionWords, fieldWords, valueWords } from '@/lib/core/audit/words';

describe('an audit in words', () => {
  it.each([
    ['unit.edited', 'Changed'],
    ['kitchen.archived', 'Taken out of use'],
    ['task.rule_changed', 'Rule changed'],
  ])('%s: %s', (action, expected) => expect(actionWords(action)).toBe(expected));

  it.each([
    ['serviceHours', 'service hours'],
    ['setPointK', 'set point'],
    ['energyPricePerKwh', 'energy price'],
    ['name', 'name'],
  ])('%s: %s', (field, expected) => expect(fieldWords(field)).toBe(expected));

  it.each([
    [null, 'nothing'],
    ['', 'nothing'],
    [0, '0'],
    [false, 'no'],
    [['flammable'], '["flammable"]'],
    ['x'.repeat(90), `${'x'.repeat(80)}…`],
  ])('%j: %s', (value, expected) => expect(valueWords(value)).toBe(expected));
});
