import { expect, it } from 'vitest';
import { weighedKg as intoCylinder } from '@/lib/core/sealed/record';
import { FILLERS, FILLER_FOR, SEALED_STEPS, SEALED_STEP_TEXT } from '@/lib/core/sealed/steps';
import { isTooFull, weighedKg } from '@/lib/core/sealed/weighing';
import { RECOVERED_FOR, RECOVERED_FOR_LABEL } from '@/lib/core/sealed/work';

it('counts what a cylinder gained when gas was recovered, and what it lost when a unit was charged', () => {
  expect(weighedKg({ way: 'recover', startKg: 12, endKg: 13.4 })).toBeCloseTo(1.4);
  expect(weighedKg({ way: 'charge', startKg: 13.4, endKg: 12 })).toBeCloseTo(1.4);
  expect(weighedKg({ way: 'charge', startKg: 12, endKg: null })).toBeNull();
  expect(weighedKg({ way: 'recover', startKg: null, endKg: 12 })).toBeNull();
});

it('knows a cylinder that took in more than it may hold, and minds only one that takes in', () => {
  const cylinder = { tareKg: 11, mostKg: 17.6 };
  expect(isTooFull({ way: 'recover', endKg: 28.5 }, cylinder)).toBe(false);
  expect(isTooFull({ way: 'recover', endKg: 28.7 }, cylinder)).toBe(true);
  expect(isTooFull({ way: 'charge', endKg: 28.7 }, cylinder)).toBe(false);
  expect(isTooFull({ way: 'recover', endKg: null }, cylinder)).toBe(false);
});

it('tells the office what a step did to its cylinder: into it or out of it, and nothing of a step that weighs nothing', () => {
  const scale = { cylinderId: 'c', cylinderWords: '', startKg: 12, endKg: 12.5 };
  expect(intoCylinder({ step: 'recover', levelPaGauge: null, recoveredFor: 'reuse', ...scale })).toEqual({ way: 'recovered', kg: 0.5 });
  expect(intoCylinder({ step: 'charge', plateKg: 1, targetKg: 1, band: null, ...scale, endKg: 11 })).toEqual({ way: 'charged', kg: -1 });
  expect(intoCylinder({ step: 'charge', plateKg: 1, targetKg: 1, band: null, ...scale, endKg: 12 })).toBeNull();
  expect(intoCylinder({ step: 'open', how: 'Cut' })).toBeNull();
  expect(intoCylinder(null)).toBeNull();
});

it('names each step, filler and fate of a gas once, in words that begin as a sentence does', () => {
  const titles = SEALED_STEPS.map((step) => SEALED_STEP_TEXT[step].title);
  const fillers = FILLERS.map((f) => FILLER_FOR[f]);
  const fates = RECOVERED_FOR.map((f) => RECOVERED_FOR_LABEL[f]);
  for (const list of [titles, fillers, fates]) expect(new Set(list).size).toBe(list.length);
  for (const text of [...titles, ...fillers, ...fates, ...SEALED_STEPS.map((step) => SEALED_STEP_TEXT[step].what)])
    expect(text).toMatch(/^[A-Z].{3}/);
});
