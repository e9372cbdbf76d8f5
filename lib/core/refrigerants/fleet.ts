import { isRegistered, register, type RefrigerantData } from './engine';
import { failure, type PropertyFailure } from './types';

export * from './api';

type Loader = () => Promise<RefrigerantData>;

// One literal import each: bundlers cut a file per refrigerant only where they can read the path.
// prettier-ignore
const LOADERS: Readonly<Record<string, Loader>> = {
  R134a: async () => ({ id: 'R134a', tables: (await import('./data/tables/R134a')).R134a, equation: (await import('./data/equations/R134a')).R134a }),
  R290: async () => ({ id: 'R290', tables: (await import('./data/tables/R290')).R290, equation: (await import('./data/equations/R290')).R290 }),
  R600a: async () => ({ id: 'R600a', tables: (await import('./data/tables/R600a')).R600a, equation: (await import('./data/equations/R600a')).R600a }),
  R22: async () => ({ id: 'R22', tables: (await import('./data/tables/R22')).R22, equation: (await import('./data/equations/R22')).R22 }),
  R12: async () => ({ id: 'R12', tables: (await import('./data/tables/R12')).R12, equation: (await import('./data/equations/R12')).R12 }),
  R1234yf: async () => ({ id: 'R1234yf', tables: (await import('./data/tables/R1234yf')).R1234yf, equation: (await import('./data/equations/R1234yf')).R1234yf }),
  'R1234ze(E)': async () => ({ id: 'R1234ze(E)', tables: (await import('./data/tables/R1234zeE')).R1234zeE, equation: (await import('./data/equations/R1234zeE')).R1234zeE }),
  R32: async () => ({ id: 'R32', tables: (await import('./data/tables/R32')).R32, equation: (await import('./data/equations/R32')).R32 }),
  R125: async () => ({ id: 'R125', tables: (await import('./data/tables/R125')).R125, equation: (await import('./data/equations/R125')).R125 }),
  R143a: async () => ({ id: 'R143a', tables: (await import('./data/tables/R143a')).R143a, equation: (await import('./data/equations/R143a')).R143a }),
  R152a: async () => ({ id: 'R152a', tables: (await import('./data/tables/R152a')).R152a, equation: (await import('./data/equations/R152a')).R152a }),
  R744: async () => ({ id: 'R744', tables: (await import('./data/tables/R744')).R744, equation: (await import('./data/equations/R744')).R744 }),
  R404A: async () => ({ id: 'R404A', tables: (await import('./data/tables/R404A')).R404A, equation: (await import('./data/equations/R404A')).R404A }),
  R507A: async () => ({ id: 'R507A', tables: (await import('./data/tables/R507A')).R507A, equation: (await import('./data/equations/R507A')).R507A }),
  R407C: async () => ({ id: 'R407C', tables: (await import('./data/tables/R407C')).R407C, equation: (await import('./data/equations/R407C')).R407C }),
  R410A: async () => ({ id: 'R410A', tables: (await import('./data/tables/R410A')).R410A, equation: (await import('./data/equations/R410A')).R410A }),
  R448A: async () => ({ id: 'R448A', tables: (await import('./data/tables/R448A')).R448A }),
  R449A: async () => ({ id: 'R449A', tables: (await import('./data/tables/R449A')).R449A }),
  R450A: async () => ({ id: 'R450A', tables: (await import('./data/tables/R450A')).R450A }),
  R452A: async () => ({ id: 'R452A', tables: (await import('./data/tables/R452A')).R452A }),
  R454A: async () => ({ id: 'R454A', tables: (await import('./data/tables/R454A')).R454A }),
  R454C: async () => ({ id: 'R454C', tables: (await import('./data/tables/R454C')).R454C }),
  R455A: async () => ({ id: 'R455A', tables: (await import('./data/tables/R455A')).R455A }),
  R513A: async () => ({ id: 'R513A', tables: (await import('./data/tables/R513A')).R513A }),
  R515B: async () => ({ id: 'R515B', tables: (await import('./data/tables/R515B')).R515B }),
  R407A: async () => ({ id: 'R407A', tables: (await import('./data/tables/R407A')).R407A }),
  R407F: async () => ({ id: 'R407F', tables: (await import('./data/tables/R407F')).R407F }),
};

/**
 * Loads the data of these refrigerants, so that the property functions answer for them. Safe to call again.
 * Returns a failure for each id that there is no data for; a broken download rejects.
 */
export async function loadRefrigerants(ids: Iterable<string>): Promise<PropertyFailure[]> {
  const unknown: PropertyFailure[] = [];
  const wanted = [...new Set(ids)].filter((id) => !isRegistered(id));
  await Promise.all(
    wanted.map(async (id) => {
      const load = Object.hasOwn(LOADERS, id) ? LOADERS[id] : undefined;
      if (load) register(await load());
      else unknown.push(failure('unknown_refrigerant', `No property data for ${id}`));
    }),
  );
  return unknown;
}
