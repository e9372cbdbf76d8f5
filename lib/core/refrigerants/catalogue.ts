/** What a person needs to know of a refrigerant before any property is computed. No equations are loaded by this file. */

export type SafetyClass = 'A1' | 'A2L' | 'A2' | 'A3';

export type RefrigerantInfo = {
  id: string;
  name: string;
  /** Pure, a blend with its own published single equation (pseudo-pure), or a blend computed as a mixture. */
  kind: 'pure' | 'pseudo_pure' | 'blend';
  /** ASHRAE 34 group, from memory. */
  safetyClass: SafetyClass;
  /** Mass fractions of the components, nominal. */
  composition?: Readonly<Record<string, number>>;
  /** GWP over 100 years, IPCC AR4; blends by mass of their components. Null where AR4 gives none. */
  gwpAR4: number | null;
  /** Expanded uncertainty of bubble and dew pressure as a share: model against measurement, not arithmetic. */
  pressureUncertainty: number;
};

/**
 * From memory of what the authors state, rounded up: pure equations 0.02–0.2 %, pseudo-pure 0.5 % (Lemmon 2003),
 * mixture models about 1 % in bubble pressure (Bell 2022, 2023).
 */
const PRESSURE_UNCERTAINTY = { pure: 0.002, pseudo_pure: 0.005, blend: 0.01 } as const;

/** IPCC 2007 (AR4), table 2.14; the two olefins and R-227ea by the values the equations' source files carry. */
const GWP_AR4: Readonly<Record<string, number | null>> = {
  R12: 10900, R22: 1810, R32: 675, R125: 3500, R134a: 1430, R143a: 4470, R152a: 124, R227ea: 3220,
  R290: 3, R600a: null, R744: 1, R1234yf: 4, 'R1234ze(E)': 6,
}; // prettier-ignore

function pure(id: string, name: string, safetyClass: SafetyClass): RefrigerantInfo {
  return {
    id,
    name,
    kind: 'pure',
    safetyClass,
    gwpAR4: GWP_AR4[id] ?? null,
    pressureUncertainty: PRESSURE_UNCERTAINTY.pure,
  };
}

function blend(id: string, kind: 'pseudo_pure' | 'blend', safetyClass: SafetyClass, composition: Record<string, number>): RefrigerantInfo {
  const parts = Object.entries(composition);
  const gwp = parts.reduce((sum, [part, share]) => sum + share * (GWP_AR4[part] ?? NaN), 0);
  const names = parts.map(([part]) => part.replace(/^R/, 'R-')).join('/');
  const shares = parts.map(([, share]) => Number((share * 100).toFixed(1))).join('/');
  return {
    id,
    name: `${names} (${shares} % by mass)`,
    kind,
    safetyClass,
    composition,
    gwpAR4: Number.isFinite(gwp) ? Math.round(gwp) : null,
    pressureUncertainty: PRESSURE_UNCERTAINTY[kind],
  };
}

const LIST = [
  pure('R134a', '1,1,1,2-tetrafluoroethane', 'A1'),
  pure('R290', 'propane', 'A3'),
  pure('R600a', 'isobutane', 'A3'),
  pure('R22', 'chlorodifluoromethane', 'A1'),
  pure('R12', 'dichlorodifluoromethane', 'A1'),
  pure('R1234yf', '2,3,3,3-tetrafluoroprop-1-ene', 'A2L'),
  pure('R1234ze(E)', 'trans-1,3,3,3-tetrafluoroprop-1-ene', 'A2L'),
  pure('R32', 'difluoromethane', 'A2L'),
  pure('R125', 'pentafluoroethane', 'A1'),
  pure('R143a', '1,1,1-trifluoroethane', 'A2L'),
  pure('R152a', '1,1-difluoroethane', 'A2'),
  pure('R744', 'carbon dioxide', 'A1'),
  blend('R404A', 'pseudo_pure', 'A1', { R125: 0.44, R143a: 0.52, R134a: 0.04 }),
  blend('R507A', 'pseudo_pure', 'A1', { R125: 0.5, R143a: 0.5 }),
  blend('R407C', 'pseudo_pure', 'A1', { R32: 0.23, R125: 0.25, R134a: 0.52 }),
  blend('R410A', 'pseudo_pure', 'A1', { R32: 0.5, R125: 0.5 }),
  blend('R448A', 'blend', 'A1', { R32: 0.26, R125: 0.26, R1234yf: 0.2, R134a: 0.21, 'R1234ze(E)': 0.07 }),
  blend('R449A', 'blend', 'A1', { R32: 0.243, R125: 0.247, R1234yf: 0.253, R134a: 0.257 }),
  blend('R450A', 'blend', 'A1', { R134a: 0.42, 'R1234ze(E)': 0.58 }),
  blend('R452A', 'blend', 'A1', { R32: 0.11, R125: 0.59, R1234yf: 0.3 }),
  blend('R454A', 'blend', 'A2L', { R32: 0.35, R1234yf: 0.65 }),
  blend('R454C', 'blend', 'A2L', { R32: 0.215, R1234yf: 0.785 }),
  blend('R455A', 'blend', 'A2L', { R744: 0.03, R32: 0.215, R1234yf: 0.755 }),
  blend('R513A', 'blend', 'A1', { R1234yf: 0.56, R134a: 0.44 }),
  blend('R515B', 'blend', 'A1', { 'R1234ze(E)': 0.911, R227ea: 0.089 }),
  blend('R407A', 'blend', 'A1', { R32: 0.2, R125: 0.4, R134a: 0.4 }),
  blend('R407F', 'blend', 'A1', { R32: 0.3, R125: 0.3, R134a: 0.4 }),
] as const;

/** Every refrigerant by id, ids written as `R134a`, `R404A`, `R1234ze(E)`. */
export const REFRIGERANTS: Readonly<Record<string, RefrigerantInfo>> = Object.fromEntries(LIST.map((info) => [info.id, info]));

/** Ids in the order a list should show them. */
export const REFRIGERANT_IDS: readonly string[] = LIST.map((info) => info.id);

/**
 * Refrigerants that still stand on nameplates and for which we hold no equations: filed as named, never estimated.
 * Composition by mass and safety group as in ASHRAE 34, from memory.
 */
const NAMED_REFRIGERANTS: Readonly<Record<string, { id: string; name: string; safetyClass: SafetyClass }>> = Object.fromEntries(
  (
    [
      ['R401A', 'R-22/R-152a/R-124 (53/13/34 % by mass)'],
      ['R401B', 'R-22/R-152a/R-124 (61/11/28 % by mass)'],
      ['R402A', 'R-125/R-290/R-22 (60/2/38 % by mass)'],
      ['R402B', 'R-125/R-290/R-22 (38/2/60 % by mass)'],
      ['R408A', 'R-125/R-143a/R-22 (7/46/47 % by mass)'],
      ['R409A', 'R-22/R-124/R-142b (60/25/15 % by mass)'],
      ['R414B', 'R-22/R-124/R-600a/R-142b (50/39/1.5/9.5 % by mass)'],
      ['R417A', 'R-125/R-134a/R-600 (46.6/50/3.4 % by mass)'],
      ['R422A', 'R-125/R-134a/R-600a (85.1/11.5/3.4 % by mass)'],
      ['R422D', 'R-125/R-134a/R-600a (65.1/31.5/3.4 % by mass)'],
      ['R427A', 'R-32/R-125/R-143a/R-134a (15/25/10/50 % by mass)'],
      ['R438A', 'R-32/R-125/R-134a/R-600/R-601a (8.5/45/44.2/1.7/0.6 % by mass)'],
      ['R502', 'R-22/R-115 (48.8/51.2 % by mass)'],
    ] as const
  ).map(([id, name]) => [id, { id, name, safetyClass: 'A1' as const }]),
);

/** With chlorine in them: what the rules on substances that deplete ozone reach. By their components above. */
const CHLORINE = /R-(12|22|115|124|142b)\b/;
export const depletesOzone = (id: string): boolean => id === 'R12' || id === 'R22' || CHLORINE.test(NAMED_REFRIGERANTS[id]?.name ?? '');

/** Filed where the nameplate cannot be read. */
export const UNKNOWN_REFRIGERANT = 'unknown';

/** Every name a unit may be filed under, in the order a list should show them. */
export const FILED_REFRIGERANTS: readonly { id: string; name: string; safetyClass: SafetyClass; estimated: boolean }[] = [
  ...LIST.map(({ id, name, safetyClass }) => ({ id, name, safetyClass, estimated: true })),
  ...Object.values(NAMED_REFRIGERANTS).map((r) => ({ ...r, estimated: false })),
];
export const isFiledRefrigerant = (id: string): boolean =>
  id === UNKNOWN_REFRIGERANT || Object.hasOwn(REFRIGERANTS, id) || Object.hasOwn(NAMED_REFRIGERANTS, id);

/** ASHRAE 34 group of any refrigerant that can be filed; null for one that is not known, which is no all-clear. */
export const safetyClassOf = (id: string): SafetyClass | null => (REFRIGERANTS[id] ?? NAMED_REFRIGERANTS[id])?.safetyClass ?? null;
