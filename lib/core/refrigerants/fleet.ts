import { LOADERS } from './data/loaders';
import { isRegistered, register, type RefrigerantData } from './engine';
import { failure, type PropertyFailure } from './types';

export * from './api';

async function loaded(id: string, [tables, equation]: (typeof LOADERS)[string]): Promise<RefrigerantData> {
  const [text, own] = await Promise.all([tables(), equation?.()]);
  return own ? { id, tables: text, equation: own } : { id, tables: text };
}

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
      if (load) register(await loaded(id, load));
      else unknown.push(failure('unknown_refrigerant', `No property data for ${id}`));
    }),
  );
  return unknown;
}
