import { Figure } from '@/app/_ui/figure';
import { moneyIn, PERCENT } from '@/app/_ui/measure';
import type { Figure as Banded } from '@/lib/core/condenser';
import type { KitchenLine } from './kitchen-table';

const KWH = { unit: 'kWh', of: (x: number) => x, decimals: 0 };

/** The page in two sentences. */
export function Lead({ kitchens, energy, money, currency, whole }: { kitchens: KitchenLine[]; energy: Banded | null; money: Banded | null; currency: string; whole: boolean }) {
  const worst = kitchens[0];
  return (
    <>
      {worst?.monthly && worst.evidence > 0 ? (
        <>
          Coils at <b className="text-ink">{worst.customer === worst.name ? worst.name : `${worst.customer}, ${worst.name}`}</b> foul fastest: they lose <Figure of={worst.monthly} scale={PERCENT} className="text-ink" /> of their conductance in 30 days.{' '}
        </>
      ) : (
        'No kitchen has evidence of its own yet. '
      )}
      {energy ? (
        <>
          Fouling {whole ? 'in all kitchens' : 'in these kitchens'} costs about <Figure of={energy} scale={KWH} per="/day" className="text-ink" />
          {money ? (
            <>
              , <Figure of={money} scale={moneyIn(currency)} per="/day" className="text-ink" /> where a price is on file
            </>
          ) : null}
          , as the coils stand today.
        </>
      ) : null}
    </>
  );
}
