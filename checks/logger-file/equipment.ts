import { AIR_CONDITIONER, profileOf, type Profile } from '../../lib/core/condenser/machine/profiles';
import type { CondenserUnit } from '../../lib/core/condenser/types';
import { dewTemperature, isFailure } from '../../lib/core/refrigerants/api';
import type { LogRow } from './rows';

/** A log says little of the machine: its kind is told from how cold it evaporates, or else from its refrigerant. */
export type LoggedKind = 'air_conditioning' | 'medium' | 'low';

const AIR_CONDITIONING = new Set(['R410A', 'R32', 'R407C', 'R22']);
const SAMPLE = 400;

export function kindOf(rows: readonly LogRow[]): LoggedKind {
  const evaporating: number[] = [];
  const every = Math.max(1, Math.floor(rows.length / SAMPLE));
  for (let i = 0; i < rows.length; i += every) {
    const row = rows[i];
    if (!row?.suctionPa || !row.headPa || row.suctionPa > 0.85 * row.headPa) continue;
    const te = dewTemperature(row.refrigerant, row.suctionPa);
    if (!isFailure(te)) evaporating.push(te);
  }
  evaporating.sort((a, b) => a - b);
  const middle = evaporating[Math.floor(evaporating.length / 2)];
  if (middle !== undefined) return middle > 275 ? 'air_conditioning' : middle > 258 ? 'medium' : 'low';
  return AIR_CONDITIONING.has(rows[0]?.refrigerant ?? '') ? 'air_conditioning' : 'medium';
}

const BOX_K: Record<LoggedKind, number> = { air_conditioning: 297, medium: 276, low: 255 };

/** A stand-in unit for a log: everything is a ratio to its own clean rows, so its size does not matter. */
export function loggedUnit(kind: LoggedKind, refrigerant: string): { unit: CondenserUnit; profile: Profile } {
  const profile = kind === 'air_conditioning' ? AIR_CONDITIONER : profileOf(kind === 'low' ? 'walk_in_freezer' : 'walk_in_cooler', kind);
  const unit: CondenserUnit = {
    refrigerant,
    kind: 'remote_condensing_unit',
    application: kind === 'low' ? 'low' : 'medium',
    expansion: 'valve',
    circuitAccess: 'ports',
    condenserKind: 'fin_and_tube',
    placement: 'outdoors',
    boxSetPointK: BOX_K[kind],
    altitudeM: 0,
  };
  return { unit, profile };
}
