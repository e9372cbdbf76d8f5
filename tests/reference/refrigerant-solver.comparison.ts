import {
  bubblePressure,
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  unwrap,
  liquid,
  REFRIGERANTS,
  saturatedLiquid,
  saturatedVapour,
  vapour,
} from '@/lib/core/refrigerants';
import { engineOf } from '@/lib/core/refrigerants/engine';
import { exactSaturation } from '@/lib/core/refrigerants/exact';
import { applyIirReference } from '@/lib/core/refrigerants/reference-state';
import { densityFrom } from '@/lib/core/refrigerants/solvers/density';
import type { Comparison } from './comparison';
import { Worst } from './support';

const POINTS = 24;
/** Irrational steps: never a node of an expansion, spread over the whole range. */
const spread = (i: number, step: number) => (i * step) % 1;

type Book = { curves: Worst; saturated: Worst; single: Worst };

/** The fast path of one refrigerant against its equations, solved in full, from the coldest to near the critical point. */
function compare(id: string, book: Book): void {
  const exact = exactSaturation(id);
  applyIirReference(exact.model, exact.bubble(273.15)!.rho);
  const { minT, maxSaturationT, maxT, maxP } = engineOf(id)!.limits;
  for (let i = 1; i <= POINTS; i++) {
    const T = minT + (maxSaturationT - minT) * spread(i, 0.618034);
    const [bubble, dew] = [exact.bubble(T)!, exact.dew(T)!];
    book.curves.add(unwrap(bubblePressure(id, T)) / bubble.p - 1);
    book.curves.add(unwrap(dewPressure(id, T)) / dew.p - 1);
    book.curves.add(unwrap(bubbleTemperature(id, bubble.p)) / T - 1);
    book.curves.add(unwrap(dewTemperature(id, dew.p)) / T - 1);
    for (const [state, rho] of [
      [unwrap(saturatedLiquid(id, T)), bubble.rho],
      [unwrap(saturatedVapour(id, T)), dew.rho],
    ] as const) {
      const truth = exact.model.state(T, rho);
      book.saturated.add(state.rho / truth.rho - 1);
      book.saturated.add((state.h - truth.h) / 200e3);
      book.saturated.add((state.s - truth.s) / 1e3);
    }
    const gasT = minT + (maxT - minT) * spread(i, 0.414214);
    const top = unwrap(dewPressure(id, Math.min(gasT, maxSaturationT)));
    const p = top * (0.05 + 0.9 * spread(i, 0.732051));
    single(book, exact.model, unwrap(vapour(id, { T: gasT, p })));
    const pressed = bubble.p + (Math.min(maxP, 8e6) - bubble.p) * spread(i, 0.236068);
    if (pressed > bubble.p) single(book, exact.model, unwrap(liquid(id, { T, p: pressed })));
  }
}

function single(book: Book, model: Parameters<typeof densityFrom>[0], state: { T: number; p: number; rho: number; h: number; s: number }) {
  const truth = model.state(state.T, densityFrom(model, state.T, state.p, state.rho));
  book.single.add(state.rho / truth.rho - 1);
  book.single.add((state.h - truth.h) / 200e3);
  book.single.add((state.s - truth.s) / 1e3);
}

export function comparisons(): Comparison[] {
  const book: Book = { curves: new Worst(), saturated: new Worst(), single: new Worst() };
  const ids = Object.keys(REFRIGERANTS);
  for (const id of ids) compare(id, book);
  const entry = (part: keyof Book, quantity: string, each: number): Comparison => ({
    id: `refrigerants.fast-path.${part}`,
    regression: true,
    source: 'the product’s own iterative solution of the published equations',
    quantity: `${quantity}, ${ids.length} refrigerants from the coldest to near the critical point`,
    unit: '1 (h, s of 200 kJ/kg, 1 kJ/(kg·K))',
    tolerance: 1e-5,
    expectedSamples: 27 * POINTS * each,
    worst: book[part].worst,
    samples: book[part].samples,
  });
  return [
    entry('curves', 'Fast path: pressures and temperatures of saturation', 4),
    entry('saturated', 'Fast path: saturated density, h, s', 6),
    entry('single', 'Fast path: vapour and liquid density, h, s', 6),
  ];
}
