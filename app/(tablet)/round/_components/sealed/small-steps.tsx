import { FILLER_FOR, FILLERS, type FillerJoint } from '@/lib/core/sealed/steps';
import { roomShare } from '@/lib/core/sealed/flammable';
import { TUBE_SIZES } from '@/lib/core/sealed/tubing';
import { TUBE_LINE_LABEL, TUBE_LINES } from '@/lib/core/sealed/work';
import { typedNumber } from '@/lib/core/measures/typed-number';
import type { Me, UnitOnFile } from '@/lib/core/tablet';
import { areaUnit, boreUnit, type DraftUnits } from '../../_lib/sealed-draft';
import type { StepInHand } from '../../_lib/use-sealed';
import { ownMass } from '../../_lib/own-words';
import { Chip, Fold, TouchSelect } from '../touch';
import { Num, Pair, Tick, Usual, Verdict, TextBox } from './fields';

type Props = { in: StepInHand; units: DraftUnits };

/** What burns is seen to first: limits, area, ventilation, detector; then power. */
export function Isolate({ in: s, units, unit, me, flammable }: Props & { unit: UnitOnFile; me: Me; flammable: boolean }) {
  const area = areaUnit(units);
  const typed = typedNumber(s.draft.room ?? '');
  const room = unit.chargeKg !== null && typed !== null && typed > 0 ? roomShare(unit.refrigerant, unit.chargeKg, area.toSi(typed)) : null;
  return (
    <>
      {flammable ? (
        <>
          <Num in={s} name="room" label="Floor of the room" unit={area.label} hint="Leave it empty outdoors." />
          {room && unit.chargeKg !== null ? (
            <Verdict
              alarm={room.verdict !== 'below_quarter'}
              title={`All ${ownMass(unit.chargeKg, me)} in the air here: ${Math.round(room.share * 100)} % of what burns.`}
            >
              <p>
                {room.verdict === 'below_quarter'
                  ? 'Below a quarter, if it mixes. Near the floor it does not: ventilate all the same.'
                  : `Above a quarter. It would take ${Math.ceil(room.leastM2 / (area.label === 'ft²' ? 0.09290304 : 1))} ${area.label}: roll it out, or move the air.`}{' '}
                Limits of EN 378-1, from memory; your code decides.
              </p>
            </Verdict>
          ) : null}
          <Tick in={s} name="ventilated" label="Room ventilated" />
          <Tick in={s} name="detector" label="Detector on, at the floor" />
          <Tick in={s} name="ignition" label="No flame, spark or switching nearby" />
        </>
      ) : null}
      <Tick in={s} name="dead" label="Off, locked, proven dead" />
    </>
  );
}

const USUAL_OPENINGS = ['Cut with a tube cutter', 'Service valves shut and line opened', 'Access fitting put on'] as const;

export const Open = ({ in: s }: Pick<Props, 'in'>) => (
  <>
    <div className="flex flex-wrap gap-2">
      {USUAL_OPENINGS.map((w) => (
        <Chip key={w} on={s.draft.how === w} onClick={() => s.put('how', w)}>
          {w}
        </Chip>
      ))}
    </div>
    <TextBox in={s} name="how" label="How it was opened" />
  </>
);

const JOINT_LABEL: Record<FillerJoint, string> = {
  copper_copper: 'Copper to copper',
  copper_steel: 'Copper to steel',
  copper_brass: 'Copper to brass',
  other: 'Others',
};

export const Braze = ({ in: s }: Pick<Props, 'in'>) => (
  <>
    {FILLERS.map((joint) => (
      <Num key={joint} in={s} name={joint} label={JOINT_LABEL[joint]} unit="joints" hint={FILLER_FOR[joint]} />
    ))}
    <Tick in={s} name="nitrogen" label="Dry nitrogen flowed while it was hot" />
    <Tick in={s} name="rag" label="Wet rag on valves and brass" />
    <Num in={s} name="watch" label="Somebody watched for fire" unit="min" />
    <Usual in={s} name="watch" values={['30', '60']} unit="min" />
  </>
);

/** What was fitted, and what it holds: the charge is reckoned from it. */
export function Drier({ in: s, units }: Props) {
  const sizes = [{ value: '', label: 'None' }, ...TUBE_SIZES.map((value) => ({ value, label: `${value} in` }))];
  return (
    <>
      <TextBox in={s} name="drier" label="Drier fitted: make and size" />
      <Pair>
        <Num in={s} name="drierBefore" label="Old one holds" unit="cm³" />
        <Num in={s} name="drierNow" label="New one holds" unit="cm³" />
      </Pair>
      <p className="text-sm text-soft">Inner volume, from its maker’s sheet; empty where it is not known.</p>
      <Fold
        summary="Capillary, tubes or condenser changed"
        open={TUBE_LINES.some((l) => s.draft[`${l}.length`]) || !!s.draft.bore || !!s.draft.condenserNow}
      >
        <div className="flex flex-col gap-4 px-4 pb-4">
          <Pair>
            <Num in={s} name="bore" label="Capillary bore" unit={boreUnit(units).label} />
            <Num in={s} name="capillary" label="Its length" unit={units.length.label} />
          </Pair>
          {TUBE_LINES.map((line) => (
            <fieldset key={line} className="flex flex-col gap-2">
              <legend className="font-bold">{TUBE_LINE_LABEL[line]}</legend>
              <Pair>
                {(['before', 'now'] as const).map((when) => (
                  <TouchSelect
                    key={when}
                    id={`sealed-${line}-${when}`}
                    label={when === 'before' ? 'Was' : 'Is now'}
                    options={sizes}
                    value={s.draft[`${line}.${when}`] ?? ''}
                    onChange={(e) => s.put(`${line}.${when}`, e.target.value)}
                  />
                ))}
              </Pair>
              <Num in={s} name={`${line}.length`} label="Length changed" unit={units.length.label} />
            </fieldset>
          ))}
          <Pair>
            <Num in={s} name="condenserBefore" label="Old condenser holds" unit="cm³" />
            <Num in={s} name="condenserNow" label="New one holds" unit="cm³" />
          </Pair>
        </div>
      </Fold>
    </>
  );
}
