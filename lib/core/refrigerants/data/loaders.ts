// Made by scripts/build-refrigerant-tables.ts from the catalogue: do not edit.
import type { RefrigerantData } from '../engine';

type Load<K extends 'tables' | 'equation'> = () => Promise<NonNullable<RefrigerantData[K]>>;

/** Tables, and for a pure fluid or pseudo-pure blend its equation. */
export const LOADERS: Readonly<Record<string, readonly [tables: Load<'tables'>, equation?: Load<'equation'>]>> = {
  R134a: [async () => (await import('./tables/R134a')).R134a, async () => (await import('./equations/R134a')).R134a],
  R290: [async () => (await import('./tables/R290')).R290, async () => (await import('./equations/R290')).R290],
  R600a: [async () => (await import('./tables/R600a')).R600a, async () => (await import('./equations/R600a')).R600a],
  R22: [async () => (await import('./tables/R22')).R22, async () => (await import('./equations/R22')).R22],
  R12: [async () => (await import('./tables/R12')).R12, async () => (await import('./equations/R12')).R12],
  R1234yf: [async () => (await import('./tables/R1234yf')).R1234yf, async () => (await import('./equations/R1234yf')).R1234yf],
  'R1234ze(E)': [async () => (await import('./tables/R1234zeE')).R1234zeE, async () => (await import('./equations/R1234zeE')).R1234zeE],
  R32: [async () => (await import('./tables/R32')).R32, async () => (await import('./equations/R32')).R32],
  R125: [async () => (await import('./tables/R125')).R125, async () => (await import('./equations/R125')).R125],
  R143a: [async () => (await import('./tables/R143a')).R143a, async () => (await import('./equations/R143a')).R143a],
  R152a: [async () => (await import('./tables/R152a')).R152a, async () => (await import('./equations/R152a')).R152a],
  R744: [async () => (await import('./tables/R744')).R744, async () => (await import('./equations/R744')).R744],
  R404A: [async () => (await import('./tables/R404A')).R404A, async () => (await import('./equations/R404A')).R404A],
  R507A: [async () => (await import('./tables/R507A')).R507A, async () => (await import('./equations/R507A')).R507A],
  R407C: [async () => (await import('./tables/R407C')).R407C, async () => (await import('./equations/R407C')).R407C],
  R410A: [async () => (await import('./tables/R410A')).R410A, async () => (await import('./equations/R410A')).R410A],
  R448A: [async () => (await import('./tables/R448A')).R448A],
  R449A: [async () => (await import('./tables/R449A')).R449A],
  R450A: [async () => (await import('./tables/R450A')).R450A],
  R452A: [async () => (await import('./tables/R452A')).R452A],
  R454A: [async () => (await import('./tables/R454A')).R454A],
  R454C: [async () => (await import('./tables/R454C')).R454C],
  R455A: [async () => (await import('./tables/R455A')).R455A],
  R513A: [async () => (await import('./tables/R513A')).R513A],
  R515B: [async () => (await import('./tables/R515B')).R515B],
  R407A: [async () => (await import('./tables/R407A')).R407A],
  R407F: [async () => (await import('./tables/R407F')).R407F],
};
