import { chargeByWeight, type ChargeByWeight } from '@/lib/core/sealed/charge';
import { changedParts, usualConditions } from '@/lib/core/sealed/charge-work';
import { workOf } from '@/lib/core/sealed/record';
import { isFailure } from '@/lib/core/refrigerants/api';
import type { Me, UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { siOf, type DraftUnits, type Given } from '../../_lib/sealed-draft';
import type { Record_, StepInHand } from '../../_lib/use-sealed';
import { ownMass } from '../../_lib/own-words';
import { CautionNote } from '../caution-note';
import { Num, Verdict } from './fields';
import { Weighing } from './weighing';

/** Plate and changes, kg; null before a plate is known, a sentence where a density is not. */
function reckoned(unit: UnitOnFile, visit: VisitOnFile, record: Record_, typedPlateKg: number | null): ChargeByWeight | string | null {
  const plateKg = unit.chargeKg ?? typedPlateKg;
  if (plateKg === null || !(plateKg > 0)) return null;
  const sum = chargeByWeight(plateKg, changedParts(workOf(record, 'drier')), usualConditions(unit, visit.kitchen.hotDayAirK));
  return isFailure(sum)
    ? 'What the changed parts hold can’t be reckoned for this gas: weigh in the plate, and set it by the readings.'
    : sum;
}

export function chargeGiven(
  unit: UnitOnFile,
  visit: VisitOnFile,
  record: Record_,
  draft: StepInHand['draft'],
  units: DraftUnits,
): Given['charge'] {
  const typed = siOf(draft.plate, units.charge);
  const sum = reckoned(unit, visit, record, typed);
  const plateKg = unit.chargeKg ?? (typed !== null && typed > 0 ? typed : null);
  return sum !== null && typeof sum !== 'string' ? { plateKg, targetKg: sum.kg, band: sum.band } : { plateKg, targetKg: null, band: null };
}

type Props = { in: StepInHand; me: Me; unit: UnitOnFile; visit: VisitOnFile; record: Record_; units: DraftUnits };

export function Charge({ in: s, me, unit, visit, record, units }: Props) {
  const sum = reckoned(unit, visit, record, siOf(s.draft.plate, units.charge));
  return (
    <>
      {unit.chargeKg === null ? <Num in={s} name="plate" label="Charge on the plate" unit={units.charge.label} /> : null}
      {typeof sum === 'string' ? <p className="text-soft">{sum}</p> : sum ? <Working sum={sum} me={me} /> : null}
      <Weighing in={s} me={me} unit={unit} units={units} way="charge" />
      {sum !== null && typeof sum !== 'string' ? (
        <Against sum={sum} start={siOf(s.draft.start, units.scale)} end={siOf(s.draft.end, units.scale)} me={me} />
      ) : null}
    </>
  );
}

/** Half an ounce beyond the band is more than a scale errs: judgement. */
const BESIDE_KG = 0.014;

function Against({ sum, start, end, me }: { sum: ChargeByWeight; start: number | null; end: number | null; me: Me }) {
  if (start === null || end === null || end > start) return null;
  const kg = start - end;
  const over = kg > sum.band[1] + BESIDE_KG;
  if (!over && kg >= sum.band[0] - BESIDE_KG) return null;
  const text = `${ownMass(kg, me)} went in, ${ownMass(sum.kg, me)} was reckoned. ${over ? 'Take the rest back out by weight.' : 'Add the rest, or say in the note why not.'}`;
  return <CautionNote title={over ? 'More than reckoned' : 'Less than reckoned'} text={text} />;
}

function Working({ sum, me }: { sum: ChargeByWeight; me: Me }) {
  const plate = sum.kg - sum.lines.reduce((all, l) => all + l.kg, 0);
  return (
    <Verdict title={`Charge ${ownMass(sum.kg, me)} (${ownMass(sum.band[0], me)} to ${ownMass(sum.band[1], me)})`}>
      <dl className="mt-1">
        <Line label="Plate" value={ownMass(plate, me)} />
        {sum.lines.map((l) => (
          <Line
            key={l.what}
            label={`${l.what}: ${(l.volumeM3 * 1e6).toFixed(1)} cm³ × ${Math.round(l.densityKgM3)} kg/m³`}
            value={`${l.kg < 0 ? '−' : '+'} ${ownMass(Math.abs(l.kg), me)}`}
          />
        ))}
      </dl>
      <p className="text-sm">Four times in five within the band. The plate’s own limit and the maker’s instructions come first.</p>
    </Verdict>
  );
}

const Line = ({ label, value }: { label: string; value: string }) => (
  <div className="flex justify-between gap-3 border-t border-line py-1 first:border-0">
    <dt className="min-w-0">{label}</dt>
    <dd className="whitespace-nowrap font-bold">{value}</dd>
  </div>
);
