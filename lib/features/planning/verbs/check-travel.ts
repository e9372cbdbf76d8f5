import 'server-only';
import type { Problem } from '../../../core/fleet-csv';
import { readTravel, type TravelPair } from '../../../core/planning';
import type { Tx } from '../../../database/client';
import { countTravelTimes, namedKitchens } from '../reads/travel';
import { readCsv } from '../../fleet-csv/verbs/read-csv';

export type TravelReport = { problems: Problem[]; pairs: number; kitchens: number; possible: number; replaces: number };

/** Reads a travel file against the kitchens on file. Writes nothing. */
export async function checkTravel({ db }: { db: Tx }, csv: string): Promise<{ report: TravelReport; pairs: TravelPair[] }> {
  const kitchens = await namedKitchens(db);
  const { lines, problems: unreadable } = readCsv(csv);
  const { pairs, problems } = readTravel(lines, kitchens);
  const inOrder = [...unreadable, ...problems].sort(
    (a, b) => Number(a.severity === 'note') - Number(b.severity === 'note') || a.line - b.line,
  );
  const named = new Set(pairs.flatMap((p) => [p.fromKitchenId, p.toKitchenId]));
  return {
    pairs,
    report: {
      problems: inOrder,
      pairs: pairs.length,
      kitchens: named.size,
      possible: kitchens.length * (kitchens.length - 1),
      replaces: await countTravelTimes(db),
    },
  };
}
