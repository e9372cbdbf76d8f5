import { labelOf } from '@/lib/core/typed/closed-set';
import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { extraEnergyToday, lostToday, monthlyLoss, timesPrice } from '@/lib/core/evidence';
import { PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { foulingKitchen } from '@/lib/features/owner/reads/kitchens';
import { kitchenSeasons } from '@/lib/features/owner/reads/seasons';
import { isId } from '@/lib/core/ids/is-id';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { dbForLongReads } from '@/lib/server/process/long-reads';
import { definePage } from '@/lib/server/doors/define-page';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Select } from '@/app/_ui/fields/field';
import { Figure } from '@/app/_ui/figures/figure';
import { KWH_PER_30_DAYS, moneyPer30Days, PERCENT } from '@/app/_ui/figures/measure';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { Trail } from '@/app/_ui/page/trail';
import { leftOut } from '../../_components/left-out';
import { RateBar } from '../../_components/rate-bar';
import { SeasonTable } from '../../_components/season-table';
import { Fold } from '@/app/_ui/page/fold';

export const metadata: Metadata = { title: 'Fouling of a kitchen' };

export default definePage('read:fouling', async ({ now, params, query }) => {
  const db = await dbForLongReads();
  const found = isId(params.id) ? await foulingKitchen(db, params.id, now) : null;
  if (!found) notFound();
  const { kitchen, units, left } = found;
  const currency = (await shopSettings(db))?.currency ?? 'USD';
  const one = units.find((u) => u.id === query.unit);
  const seasons = units.length > 0 ? await kitchenSeasons(db, kitchen, one?.id ?? null, now) : [];
  return (
    <>
      <Trail items={[{ href: '/owner', label: 'Owner' }]} />
      <PageHead
        title={kitchen.name}
        lead={<Lead found={found} currency={currency} />}
        actions={<ButtonLink href={`/kitchens/${kitchen.id}`}>Kitchen on file</ButtonLink>}
      />
      {units.length === 0 ? (
        <Empty>{whyNothing(left)}</Empty>
      ) : (
        <Sheet title="Coils, fastest first">
          <CoilTable units={units} />
          {leftOut(left) ? (
            <p className="mt-3 text-sm text-soft">
              Left out of every figure here: {leftOut(left)}.{left.water > 0 ? ' Air tells nothing of a condenser cooled by water.' : ''}
            </p>
          ) : null}
          <p className="mt-3 max-w-[80ch] text-sm text-soft">
            Energy: the same box held at its set point on a usual day, 11 °F (6 K) cooler than this kitchen’s hot one; fouled coils run
            longer and harder. The size of most units is guessed by kind, which is most of the band. What grease does is extrapolated from
            tests with dust and with reduced airflow.
          </p>
        </Sheet>
      )}
      <Seasons kitchenId={kitchen.id} units={units} one={one} seasons={seasons} />
    </>
  );
});

type Found = NonNullable<Awaited<ReturnType<typeof foulingKitchen>>>;
type Units = Found['units'];

const whyNothing = ({ unseen, water }: Found['left']): string =>
  unseen === 0 && water > 0
    ? 'Every unit here is cooled by water. Air tells nothing of their condensers, so nothing can be said.'
    : 'Nobody has looked at a coil here yet. Rates appear with the first closed visit.';

/** What its coils lose and cost, in one sentence. */
function Lead({ found: { kitchen, units }, currency }: { found: Found; currency: string }) {
  const energy = extraEnergyToday(units);
  const price = kitchen.energyPricePerKwh;
  return (
    <>
      {kitchen.customer.name === kitchen.name ? '' : `${kitchen.customer.name}. `}Its coils lose{' '}
      <Figure of={monthlyLoss(units)} scale={PERCENT} className="text-ink" /> of their heat transfer in 30 days. As they stand today, 30
      days cost{' '}
      {price !== null ? (
        <>
          <Figure of={timesPrice(energy, price)} scale={moneyPer30Days(currency)} className="text-ink" />,{' '}
          <Figure of={energy} scale={KWH_PER_30_DAYS} className="text-ink" /> at {price} {currency} per kWh
        </>
      ) : (
        <>
          <Figure of={energy} scale={KWH_PER_30_DAYS} className="text-ink" />; no energy price is on file, so no money is told
        </>
      )}
      .
    </>
  );
}

function CoilTable({ units }: { units: Units }) {
  const most = Math.max(0.01, ...units.map((u) => monthlyLoss([u])?.hi ?? 0));
  return (
    <Table label="Coils of this kitchen">
      <thead>
        <tr>
          <Th>Unit</Th>
          <Th className="max-md:hidden">Placement</Th>
          <Th className="w-[28%] min-w-28">Loses in 30 days</Th>
          <Th className="max-md:hidden">Lost today</Th>
          <Th className="max-md:hidden">Extra energy in 30 days</Th>
          <Th className="text-right max-sm:hidden">Looks and readings</Th>
        </tr>
      </thead>
      <tbody>
        {units.map((u) => (
          <tr key={u.id}>
            <Td>
              <Link href={`/units/${u.id}#evidence`} className="font-bold">
                {u.name}
              </Link>
              <div className="text-sm text-soft">
                {labelOf(UNIT_KIND_LABEL, u.kind)}
                <span className="md:hidden">, {labelOf(PLACEMENT_LABEL, u.placement).toLowerCase()}</span>
              </div>
              <div className="text-sm md:hidden">
                today <Figure of={lostToday(u)} scale={PERCENT} />
                <br />
                <Figure of={extraEnergyToday([u])} scale={KWH_PER_30_DAYS} />
              </div>
            </Td>
            <Td className="max-md:hidden">{labelOf(PLACEMENT_LABEL, u.placement)}</Td>
            <Td>
              <RateBar of={monthlyLoss([u]) ?? { value: 0, lo: 0, hi: 0 }} most={most} />
              <Figure of={monthlyLoss([u])} scale={PERCENT} />
            </Td>
            <Td className="max-md:hidden">
              <Figure of={lostToday(u)} scale={PERCENT} />
            </Td>
            <Td className="max-md:hidden">
              <Figure of={extraEnergyToday([u])} scale={KWH_PER_30_DAYS} />
            </Td>
            <Td className="text-right max-sm:hidden">{u.evidenceCount}</Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}

type SeasonProps = {
  kitchenId: string;
  units: Units;
  one: Units[number] | undefined;
  seasons: Awaited<ReturnType<typeof kitchenSeasons>>;
};

/** Of all its coils together, or of the one that was asked for. */
function Seasons({ kitchenId, units, one, seasons }: SeasonProps) {
  if (!seasons.some((s) => s.loss)) return null;
  return (
    <Sheet title={one ? `Season by season: ${one.name}` : 'Season by season'} className="mt-6">
      <form role="search" action={`/owner/kitchens/${kitchenId}`} className="mb-4 flex flex-wrap items-end gap-3 no-print">
        <Select
          label="Coil"
          name="unit"
          blank="All of them"
          defaultValue={one?.id ?? ''}
          options={units.map((u) => ({ value: u.id, label: u.name }))}
        />
        <Button type="submit">Show</Button>
      </form>
      <SeasonTable seasons={seasons} />
      <Fold id="seasons-how" title="How this is reckoned">
        <p className="max-w-[80ch]">
          Each season is judged by its own looks and readings alone, from the last cleaning before it, with the same growth as everywhere;
          where they are few it is drawn to what is usual for the coil’s place, and its band is wide. The bands are 80 %: where two seasons’
          overlap, no change can be told.
        </p>
      </Fold>
    </Sheet>
  );
}
