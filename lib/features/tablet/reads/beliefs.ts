import 'server-only';
import { baselineFrom, pastLosses } from '../../../core/evidence';
import type { UnitOnFile } from '../../../core/tablet';
import type { Tx } from '../../../database/client';
import { unitFiles } from '../../evidence/reads/findings-history';

/** Clean baseline of each unit and its losses since the last cleaning: the tablet's estimate rests on what the office's does. */
export async function beliefsOfUnits(db: Tx, unitIds: string[]): Promise<Map<string, Pick<UnitOnFile, 'baseline' | 'pastLosses'>>> {
  const files = await unitFiles(db, { unitIds });
  return new Map(
    files.map((f) => {
      const baseline = baselineFrom(f.unit, f.readings);
      return [f.unitId, { baseline, pastLosses: pastLosses(f.readings, baseline, f.cleanings.at(-1) ?? null, Infinity) }];
    }),
  );
}
