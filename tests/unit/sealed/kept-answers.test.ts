import { describe } from 'vitest';
import { judgeVacuum, readVacuumText, type SealedWork, type VacuumReading } from '@/lib/core/sealed';
import { chargeByWeight, type ChangedPart } from '@/lib/core/sealed/charge';
import { changedParts, usualConditions } from '@/lib/core/sealed/charge-work';
import { judgedPressure, judgedWords } from '@/lib/core/sealed/judged';
import { workLines } from '@/lib/core/sealed/said';
import { RandomStream } from '@/lib/core/numerics/random';
import '@/lib/core/refrigerants/all';
import { keptAnswers } from '../../support/kept-answers';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs sealed`.

/** A vacuum that levels off and leaks as said, read every minute with a gauge that errs a little. */
function vacuum({
  from = 300,
  lift = 100,
  tau = 5,
  leak = 0,
  minutes = 20,
  every = 1,
}: {
  from?: number;
  lift?: number;
  tau?: number;
  leak?: number;
  minutes?: number;
  every?: number;
}): VacuumReading[] {
  // prettier-ignore
  const random = new RandomStream(3, 'kept vacuum');
  return Array.from({ length: minutes / every + 1 }, (_, i) => {
    const t = i * every;
    return { minutes: t, microns: Math.round((from + lift * (1 - Math.exp(-t / tau)) + leak * t) * (1 + 0.004 * random.normal())) };
  });
}
const VACUUMS: Record<string, VacuumReading[]> = {
  'tight and dry': vacuum({ minutes: 45 }),
  'tight and dry, watched half as long': vacuum({}),
  wet: vacuum({ lift: 1800, tau: 6, minutes: 40 }),
  leaky: vacuum({ leak: 25, lift: 20 }),
  'leaky and wet': vacuum({ leak: 60, lift: 2500, tau: 3, minutes: 30 }),
  'not deep enough': vacuum({ from: 900 }),
  'too short': vacuum({ minutes: 4 }),
  'two readings': vacuum({ minutes: 10, every: 10 }),
  'a slow leak': vacuum({ leak: 1.6, minutes: 30 }),
};
const US = { temperature: 'F', pressure: 'psig', mass: 'oz' } as const;
const METRIC = { temperature: 'C', pressure: 'bar', mass: 'g' } as const;

const at = (minutes: number) => new Date(Date.UTC(2026, 5, 1, 10, minutes)).toISOString();
const pressure = (end: { pa: number; K?: number; minutes?: number }, platePaGauge: number | null = 3.8e6): Extract<SealedWork, { step: 'pressure_test' }> => ({ step: 'pressure_test', platePaGauge, gaugeDivisionPa: 6895, start: { at: at(0), paGauge: 3.4e6, temperatureK: 294 }, end: { at: at(end.minutes ?? 60), paGauge: end.pa, temperatureK: end.K ?? 294 } }); // prettier-ignore
const TESTS = {
  holds: pressure({ pa: 3.4e6 }),
  'holds, cooler': pressure({ pa: 3.32e6, K: 288 }),
  leaks: pressure({ pa: 3.36e6 }),
  rose: pressure({ pa: 3.45e6 }),
  'too short': pressure({ pa: 3.4e6, minutes: 5 }),
  'above the plate': pressure({ pa: 3.4e6 }, 3e6),
  'no plate': pressure({ pa: 3.4e6 }, null),
  'ends before it began': pressure({ pa: 3.4e6, minutes: -5 }),
};

const DRIER: Extract<SealedWork, { step: 'drier' }> = {
  step: 'drier', drier: 'HD-15 filter', drierBeforeM3: 8e-6, drierNowM3: 14e-6, condenserBeforeM3: 3e-4, condenserNowM3: 3.4e-4, capillary: { boreM: 0.00079, lengthM: 2.8 },
  tubes: [{ line: 'liquid', before: '1/4', now: '5/16', lengthM: 0.9 }, { line: 'suction', before: null, now: '3/8', lengthM: 1.5 }, { line: 'discharge', before: '3/16', now: null, lengthM: 0.4 }],
}; // prettier-ignore
const WORKS: SealedWork[] = [
  { step: 'isolate', provenDead: true, flammable: { ventilated: true, detector: false, noIgnition: true, roomM2: 23.456 } },
  { step: 'isolate', provenDead: false, flammable: null },
  { step: 'recover', levelPaGauge: -68_000, recoveredFor: 'destruction', cylinderId: 'c1', cylinderWords: '', startKg: 9.1, endKg: 9.55 },
  {
    step: 'recover',
    levelPaGauge: null,
    recoveredFor: 'reuse',
    cylinderId: null,
    cylinderWords: 'a borrowed one',
    startKg: 9.1,
    endKg: 9.55,
  },
  { step: 'open', how: 'Tube cutter' },
  { step: 'braze', joints: [{ joint: 'copper_copper', count: 3 }, { joint: 'copper_steel', count: 1 }], nitrogen: true, wetRag: false, fireWatchMinutes: 30 }, // prettier-ignore
  DRIER,
  { ...DRIER, capillary: null, tubes: [] },
  TESTS.holds,
  { step: 'evacuate', limitMicrons: 500, readings: vacuum({}) },
  { step: 'charge', plateKg: 0.227, targetKg: 0.24, band: [0.22, 0.26], cylinderId: 'c2', cylinderWords: '', startKg: 11.2, endKg: 10.96 },
  { step: 'charge', plateKg: null, targetKg: 0.24, band: null, cylinderId: 'c2', cylinderWords: '', startKg: 11.2, endKg: 10.96 },
  { step: 'charge', plateKg: null, targetKg: null, band: null, cylinderId: 'c2', cylinderWords: '', startKg: 11.2, endKg: 10.96 },
  { step: 'running_check', readingId: 'r', minutes: 60 },
];
const named = (id: string) => (id === 'c1' ? 'R-404A, blue 7' : undefined);
const weighed = (parts: readonly ChangedPart[], refrigerant = 'R134a') => chargeByWeight(0.227, parts, usualConditions({ refrigerant, boxSetK: 276, application: 'medium' }, 308)); // prettier-ignore

describe('kept answers of work on a circuit', () => {
  keptAnswers(import.meta.dirname, {
    ...Object.fromEntries(Object.entries(VACUUMS).map(([name, readings]) => [`a vacuum, ${name}`, () => ({ ...judgeVacuum(readings), words: judgedWords({ step: 'evacuate', limitMicrons: 500, readings }, US, 0) })])), // prettier-ignore
    'a vacuum by another limit and gauge': () => [judgeVacuum(VACUUMS['tight and dry']!, { limitMicrons: 350 }), judgeVacuum(VACUUMS.leaky!, { gaugeShare: 0.1, gaugeMicrons: 20 })], // prettier-ignore
    ...Object.fromEntries(Object.entries(TESTS).map(([name, work]) => [`nitrogen, ${name}`, () => ({ ...judgedPressure(work, 500)?.j, words: [judgedWords(work, US, 500), judgedWords(work, METRIC, 500)] })])), // prettier-ignore
    'what was done, in words': () => Object.fromEntries(WORKS.map((work, i) => [`${i + 1} ${work.step}`, [workLines(work, US, named), workLines(work, METRIC)]])), // prettier-ignore
    'no judgement': () => [
      judgedWords({ step: 'open', how: '' }, US, 0),
      judgedWords({ step: 'evacuate', limitMicrons: 500, readings: [] }, US, 0),
    ],
    'charge by weight': () => ({ parts: changedParts(DRIER), sum: weighed(changedParts(DRIER)), none: weighed([]), unknown: weighed(changedParts(DRIER), 'R999') }), // prettier-ignore
    'how it will run': () => [usualConditions({ refrigerant: 'R290', boxSetK: null, application: 'low' }, 305), usualConditions({ refrigerant: 'R290', boxSetK: null, application: 'medium' }, 305), changedParts(null)], // prettier-ignore
    'pasted readings': () => ['3 min 280 µm\r\n4 min 290', '00:03 280\n00:02 281', '10:00:30 300\n10:01:00 310', '1,280\n\nmicrons\n0', '5', '1 2 3'].map(readVacuumText), // prettier-ignore
  });
});
