import { describe, expect, it } from 'vitest';
import { actionWords, DONE, fieldWords, notedWords, valueWords } from '@/lib/core/audit/words';

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
    ['go_on', 'go on'],
    ['R_448A as it was typed', 'R_448A as it was typed'],
  ])('%j: %s', (value, expected) => expect(valueWords(value)).toBe(expected));
});

describe('what was noted beside a change', () => {
  it('is said where it reads as words: lists by how many, no ids, nothing empty', () => {
    const id = 'b7a3f0c2-5d55-4a43-9f0e-3c8f9f6d2a11';
    const noted = {
      reason: 'The chef asked.',
      unitIds: [id, id],
      kitchenIds: [],
      entryId: id,
      to: '',
      pairs: 12,
      switched: true,
      deep: { a: 1 },
    };
    expect(notedWords(Object.entries(noted))).toEqual(['reason: The chef asked.', 'units: 2', 'pairs: 12', 'switched: yes']);
  });
});

describe('what was done', () => {
  // What verbs note, by what a person reads of it in the record.
  it.each([
    ['user.password_set', 'Password set by the owner'],
    ['user.password_changed', 'Password changed'],
    ['user.password_chosen', 'Password chosen by a link'],
    ['user.second_step_off', 'Second step turned off'],
    ['user.second_step_reset', 'Second step turned off by the owner'],
    ['kitchen.position_learnt', 'Position learnt from arrivals'],
    ['unit.restored', 'Put back in use'],
    ['closed', 'Closed'],
  ])('%s is “%s”', (action, words) => expect(actionWords(action)).toBe(words));

  it('has words of its own for each, none of them twice, each beginning as a sentence does', () => {
    const all = Object.values(DONE);
    expect(new Set(all).size).toBe(all.length);
    for (const words of all) expect(words).toMatch(/^[A-Z][a-z].*[a-z]$/);
    for (const part of Object.keys(DONE)) expect(actionWords(`thing.${part}`), part).not.toContain('_');
  });

  it('says a field without its unit, and a value shortly', () => {
    expect(['cutoutPaGauge', 'chargeKg', 'beliefJson', 'customerId', 'altitudeM', 'hotDayAirK'].map(fieldWords)).toEqual(['cutout', 'charge', 'belief', 'customer', 'altitude', 'hot day air']); // prettier-ignore
    expect([undefined, true, 'x'.repeat(80), { a: 1 }].map(valueWords)).toEqual(['nothing', 'yes', 'x'.repeat(80), '{"a":1}']);
  });
});
