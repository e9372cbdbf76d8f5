import { whole } from '@/lib/core/measures/figures';
import { keysOf } from '@/lib/core/typed/closed-set';
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { todayIn, type LocalDate } from '@/lib/core/calendar';
import { dateIn, dateWords } from '@/lib/core/calendar/when';
import { compareWays, unitWays, VERDICT_WORDS, WAY_LABEL, type Comparison, type ShopCosts, type UnitFacts } from '@/lib/core/choices';
import { POUND_KG } from '@/lib/core/measures';
import { isId } from '@/lib/core/ids/is-id';
import { counted } from '@/lib/core/wording/counted';
import { can } from '@/lib/core/people/access';
import { changesOfEach } from '@/lib/features/audit/reads/audit';
import { choicesOf, lastFigures, shopCosts, unitFacts } from '@/lib/features/choices/reads/unit-facts';
import { unitPage } from '@/lib/features/equipment/reads/units';
import { unitsOf } from '@/lib/features/people/reads/people';
import { ChoiceFigures } from '@/lib/schemas/equipment/choices';
import { asTyped } from '@/lib/schemas/values/as-typed';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Figure } from '@/app/_ui/figures/figure';
import { moneyIn } from '@/app/_ui/figures/measure';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { UnitTrail } from '../_components/unit-trail';
import { AgainForm, DecideForm } from './decide-form';
import { FiguresForm } from './figures-form';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Clean, repair or replace' };

export default definePage('read:fouling', async ({ db, actor, now, params, query }) => {
  const unit = isId(params.id) ? await unitPage(db, params.id) : null;
  if (!unit) notFound();
  const [facts, { costs, currency, lacks }, decided, last, units] = await Promise.all([
    unitFacts(db, unit.id, now),
    shopCosts(db, unit.id),
    choicesOf(db, unit.id),
    lastFigures(db),
    unitsOf(db, actor.userId),
  ]);
  if (!facts) notFound();
  const zone = unit.kitchen.timeZone;
  const changes = await changesOfEach(
    db,
    'UnitChoice',
    decided.map((d) => d.id),
  );
  const today = todayIn(zone, now.getTime());
  const { result, wrong } = reckon(query, facts, costs);
  const pounds = units.mass === 'oz';
  const asked = Object.keys(query).length > 0;
  const sent = Object.fromEntries(Object.entries(query).map(([k, v]) => [k, v ?? '']));
  return (
    <>
      <UnitTrail unit={unit} />
      <PageHead
        title="Clean, repair or replace"
        lead={`${unit.name}, ${fullKitchenName(unit.kitchen)}: what each way costs a year, and how sure that is.`}
      />
      <div className="flex flex-col gap-6">
        {result ? <Result result={result} currency={currency} facts={facts} costs={costs} /> : null}
        <Sheet title={result ? 'On these figures' : 'Your prices'}>
          {costs ? null : <CostsMissing lacks={lacks} />}
          <FiguresForm
            values={valuesOf(query, last, pounds)}
            wrong={wrong}
            currency={currency}
            pounds={pounds}
            from={last && !asked ? `What is the shop’s stands as at the last decision, of ${dateIn(last.at, zone)}.` : ''}
          />
        </Sheet>
        {result && can(actor, 'decide:unit') ? (
          <Sheet title="Decide">
            <DecideForm unitId={unit.id} typed={sent} ways={result.ways.map((w) => ({ value: w.way, label: WAY_LABEL[w.way] }))} />
          </Sheet>
        ) : null}
        {decided.length > 0 ? (
          <Decided decided={decided} changes={changes} zone={zone} today={today} may={can(actor, 'decide:unit')} />
        ) : null}
      </div>
    </>
  );
});

type Costs = Awaited<ReturnType<typeof shopCosts>>['costs'];

/** The ways compared on the figures in the address; or what is wrong with these, or nothing where none were given yet. */
function reckon(query: Record<string, string | undefined>, facts: UnitFacts, costs: Costs) {
  if (Object.keys(query).length === 0) return { result: null, wrong: {} };
  const typed = asTyped(ChoiceFigures).safeParse(query);
  if (!typed.success) return { result: null, wrong: typed.error.flatten().fieldErrors };
  const reckoned = costs && unitWays(facts, typed.data, costs);
  return { result: reckoned && compareWays(reckoned.ways, reckoned.prices), wrong: {} };
}

type Query = Record<string, string | undefined>;

/** What stands in the fields: what was asked for in the address, else the shop's own figures of its last decision. */
function valuesOf(query: Query, last: Awaited<ReturnType<typeof lastFigures>>, pounds: boolean): Query {
  const perLb = (perKg: string | undefined) => (perKg && Number(perKg) ? String(Number((Number(perKg) * POUND_KG).toFixed(2))) : perKg);
  if (Object.keys(query).length > 0) return pounds ? { refrigerantPerLb: perLb(query.refrigerantPerKg), ...query } : query;
  if (!last) return {};
  const { coilYears, unitYears, interest, callOut, refrigerantPerKg } = last.typed;
  return {
    coilYears: String(coilYears),
    unitYears: String(unitYears),
    interest: String(Number((interest * 100).toFixed(2))),
    callOut: String(callOut),
    ...(pounds ? { refrigerantPerLb: perLb(String(refrigerantPerKg)) } : { refrigerantPerKg: String(refrigerantPerKg) }),
  };
}

const PARTS = {
  capital: 'Price, by the year',
  energy: 'Energy',
  cleaning: 'Cleanings',
  callOuts: 'Call-outs',
  leaks: 'Leaks',
  failures: 'Failures',
} as const;

type ResultProps = { result: Comparison; currency: string; facts: UnitFacts; costs: ShopCosts | null };

function Result({ result, currency, facts, costs }: ResultProps) {
  const money = { ...moneyIn(currency), most: 0 };
  const round = (x: number) => `${whole(x)} ${currency}`;
  const sentence =
    result.verdict === 'cant_tell'
      ? 'The figures can’t tell the ways apart'
      : `${WAY_LABEL[result.best]}: ${VERDICT_WORDS[result.verdict]}`;
  return (
    <Sheet
      title={sentence}
      aside={
        <span className="text-sm text-soft">
          the least in {Math.round(result.sure * 100)} of 100 draws; not knowing better costs {round(result.regretPerYear)} a year
        </span>
      }
    >
      <Table stack label="Cost of each way, a year">
        <thead>
          <tr>
            <Th>A year</Th>
            {result.ways.map((w) => (
              <Th key={w.way}>{WAY_LABEL[w.way]}</Th>
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            <Td className="font-bold">In all</Td>
            {result.ways.map((w) => (
              <Td key={w.way} label={WAY_LABEL[w.way]}>
                <Figure of={w.perYear} scale={money} />
              </Td>
            ))}
          </tr>
          {keysOf(PARTS).map((part) => (
            <tr key={part}>
              <Td className="max-md:font-bold">{PARTS[part]}</Td>
              {result.ways.map((w) => (
                <Td key={w.way} label={WAY_LABEL[w.way]}>
                  {whole(w.parts[part])}
                </Td>
              ))}
            </tr>
          ))}
          <tr>
            <Td className="max-md:font-bold">The least of all</Td>
            {result.ways.map((w) => (
              <Td key={w.way} label={WAY_LABEL[w.way]}>
                {Math.round(w.cheapest * 100)} %
              </Td>
            ))}
          </tr>
          <tr>
            <Td className="max-md:font-bold">Breaks even at a price of</Td>
            {result.ways.map((w) => (
              <Td key={w.way} label={WAY_LABEL[w.way]}>
                {w.way === 'go_on' ? '–' : w.breakEvenPrice === null ? 'none' : round(w.breakEvenPrice)}
              </Td>
            ))}
          </tr>
        </tbody>
      </Table>
      <p className="mt-2 max-w-[80ch] text-sm text-soft">
        Bands hold four times in five. Over {facts.cleanings.years.toFixed(1)} years on file: {counted(facts.cleanings.times, 'cleaning')},{' '}
        {counted(facts.callOuts.times, 'call-out')}, {counted(facts.failures.times, 'day')} it failed. A repaired or new unit is held to the
        shop’s mean of call-outs and failures (judgement). {cleaningWords(facts, costs)}
        {facts.fouling ? '' : ' What deposit costs it in energy can’t be said: its gas or its size has no numbers.'}
      </p>
    </Sheet>
  );
}

type DecidedProps = {
  decided: Awaited<ReturnType<typeof choicesOf>>;
  changes: Awaited<ReturnType<typeof changesOfEach>>;
  zone: string;
  today: LocalDate;
  may: boolean;
};

function Decided({ decided, changes, zone, today, may }: DecidedProps) {
  return (
    <Sheet title="Decided before">
      <ul className="flex flex-col gap-4">
        {decided.map((d) => (
          <li key={d.id}>
            <b>{WAY_LABEL[d.way]}</b>, {dateIn(d.at, zone)}, {d.by}: {d.reason}
            {d.lookedAt ? (
              <span className="block text-soft">
                Looked at again {dateIn(d.lookedAt, zone)} by {d.lookedBy}: {d.lookedNote}
              </span>
            ) : d.lookAgainOn <= today ? (
              may && <AgainForm id={d.id} />
            ) : (
              <span className="block text-soft">To be looked at again on {dateWords(d.lookAgainOn)}.</span>
            )}
            <ChangeHistory changes={changes.get(d.id) ?? []} timeZone={zone} />
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

function CostsMissing({ lacks }: { lacks: readonly string[] }) {
  return (
    <p className="mb-3">
      <State shape="ask" tone="alarm">
        Costs are missing
      </State>{' '}
      Say first what you pay for: {lacks.join(', ')}. <ButtonLink href="/shop#costs">Costs</ButtonLink>
    </p>
  );
}

/** What a cleaning of this unit was reckoned by. */
function cleaningWords({ cleaningMinutes: seen }: UnitFacts, costs: ShopCosts | null): string {
  if (!seen) return 'A cleaning is taken at the shop’s price: how long it takes here was not seen often enough.';
  const time = `${Math.round(seen.value)} min (${Math.round(seen.lo)} to ${Math.round(seen.hi)}) at this unit, over ${counted(seen.cleanings, 'cleaning')}`;
  return costs?.hour && costs.plannedMinutes
    ? `A cleaning took ${time}, beside ${costs.plannedMinutes} min planned: it is reckoned dearer or cheaper by that.`
    : `A cleaning took ${time}. Say what an hour costs you and it is reckoned by that; now it is at the shop’s price.`;
}
