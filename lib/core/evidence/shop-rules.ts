import { fahrenheitToKelvin } from '../units';
import { DEFAULT_POLICY, type ShopPolicy } from '../intervals';
import type { LimitSettings } from './own-limits';

/** The shop's policy as it is kept and edited: plain numbers, and the limits in the machine's own quantities. */
export type ShopRules = Omit<ShopPolicy, 'energyCostPerDayPerLnK'> & { energyCostPerDayPerLnK: number; ownLimits: LimitSettings };

// A tenth of the cooling gone on a hot day is where a box in service begins to run warm; 225 °F on the discharge line
// is the trade's usual limit. Both common practice, from memory, and settings.
export const DEFAULT_SHOP_RULES: ShopRules = {
  ...DEFAULT_POLICY,
  energyCostPerDayPerLnK: 0.8,
  ownLimits: { coolingLost: 0.1, dischargeK: fahrenheitToKelvin(225) },
};
