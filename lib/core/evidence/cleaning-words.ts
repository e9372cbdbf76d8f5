import { whole } from '../measures/figures';
import type { Figure } from '../condenser';
import { formatBand } from '../measures';
import { counted } from '../wording/counted';
import type { CleaningPrices, CleaningWorth } from './cleaning-worth';

/** "1,200 USD (800–1,600)": no finer than the band. */
const money = (f: Figure, currency: string) =>
  formatBand(f.value, f.lo, f.hi, currency).replace(/\d{4,}/g, (digits) => whole(Number(digits)));

/** One sentence that can be sent on as it stands: what the cleanings of the next `days` cost, and what they save. */
export function cleaningSentence(w: CleaningWorth, currency: string, days: number): string {
  const cleanings = counted(w.coils, 'coil cleaning');
  const due = `The ${cleanings} due by now or in the next ${days} days ${w.coils === 1 ? 'costs' : 'cost'} ${whole(w.price)} ${currency}`;
  const lasts = w.coils === 1 ? 'Until it comes due again it saves' : 'Until each comes due again they save';
  const parts = `${money(w.energy, currency)} of energy and ${money(w.avoided, currency)} of breakdowns, ${formatBand(w.breakdowns.value, w.breakdowns.lo, w.breakdowns.hi, '', 1)} fewer`;
  return `${due}. ${lasts} about ${money(w.saved, currency)}: ${parts}. ${VERDICT[w.verdict]}`;
}

const VERDICT: Record<CleaningWorth['verdict'], string> = {
  pays: 'That is more than they cost.',
  costs: 'That is less than they cost; a warranty, a contract or food safety may ask for them all the same.',
  open: 'Whether that is more than they cost can’t be said yet.',
};

/** Where the figures of the sentence come from, a line each. */
export function cleaningSources(w: CleaningWorth, prices: CleaningPrices, currency: string, failureChancePerDay: number): string[] {
  return [
    `Price: ${counted(w.coils, 'cleaning')} at ${prices.cleaningCost} ${currency}, as the shop set it.`,
    'Energy: each coil as looks and readings say it stands and fouls, by the equations of its refrigerant and the energy price of its kitchen or the shop, against the same coil cleaned on its date.',
    w.withoutEnergy > 0
      ? `${counted(w.withoutEnergy, 'coil has', 'coils have')} no energy price, or a refrigerant without equations: counted with breakdowns alone.`
      : '',
    `Breakdowns: the chance that a coil is past what its unit bears on a hot day, ${Math.round(failureChancePerDay * 100)} % of days hot enough (a setting under Rules; common practice, not measured here), at ${prices.failureCost} ${currency} each, as the shop set it. Whether one happens is luck too; that is most of the band.`,
    'Bands: in four of five such months the truth is within them.',
  ].filter(Boolean);
}
