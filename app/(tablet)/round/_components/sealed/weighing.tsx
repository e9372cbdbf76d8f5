import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { RECOVERED_FOR, RECOVERED_FOR_LABEL } from '@/lib/core/sealed/work';
import type { Me, UnitOnFile } from '@/lib/core/tablet';
import { ELSEWHERE, fromSi, siOf, type DraftUnits } from '../../_lib/sealed-draft';
import type { StepInHand } from '../../_lib/use-sealed';
import { ownMass } from '../../_lib/own-words';
import { CautionNote } from '../caution-note';
import { TouchSelect } from '../touch';
import { Num, Pair, Pick, TextBox } from './fields';

type Props = { in: StepInHand; me: Me; unit: UnitOnFile; units: DraftUnits; way: 'recover' | 'charge' };

/** A cylinder on the scale before and after. Those of the unit's own gas come first; what it should weigh is told. */
export function Weighing({ in: s, me, unit, units, way }: Props) {
  const all = me.cylinders ?? [];
  const fits = all.filter((c) => c.refrigerant === unit.refrigerant);
  const others = all.filter((c) => c.refrigerant !== unit.refrigerant);
  const chosen = all.find((c) => c.id === s.draft.cylinder);
  const [start, end] = [siOf(s.draft.start, units.scale), siOf(s.draft.end, units.scale)];
  const moved = start !== null && end !== null ? (way === 'recover' ? end - start : start - end) : null;
  const full = chosen && end !== null && way === 'recover' && end - chosen.tareKg > chosen.mostKg;
  const cylinderText = (c: (typeof all)[number]) =>
    `${c.label}, ${refrigerantLabel(c.refrigerant)}${c.contents === 'recovered' ? ' recovered' : ''}${c.mine ? ', in your van' : ''}`;
  return (
    <>
      <TouchSelect
        id="sealed-cylinder"
        label="Cylinder"
        value={s.draft.cylinder ?? ''}
        onChange={(e) => s.put('cylinder', e.target.value)}
        options={[
          { value: '', label: 'Choose' },
          ...[...fits, ...others].map((c) => ({ value: c.id, label: cylinderText(c) })),
          { value: ELSEWHERE, label: 'One that is not on file' },
        ]}
      />
      {s.draft.cylinder === ELSEWHERE ? <TextBox in={s} name="cylinderWords" label="What is written on it" /> : null}
      {chosen && chosen.refrigerant !== unit.refrigerant ? (
        <CautionNote title="Another gas" text={`${chosen.label} holds ${refrigerantLabel(chosen.refrigerant)}. Gases are never mixed.`} />
      ) : null}
      <Pair>
        <Num
          in={s}
          name="start"
          label="Scale before"
          unit={units.scale.label}
          hint={chosen ? `By the book ${fromSi(chosen.tareKg + chosen.bookKg, units.scale)} ${units.scale.label}` : undefined}
        />
        <Num in={s} name="end" label="Scale after" unit={units.scale.label} />
      </Pair>
      {moved !== null ? (
        <p role="status" className="text-xl font-bold">
          {ownMass(moved, me)} {way === 'recover' ? 'recovered' : 'charged'}
          {way === 'recover' && unit.chargeKg !== null ? (
            <span className="text-base font-normal text-soft"> of {ownMass(unit.chargeKg, me)} on the plate</span>
          ) : null}
        </p>
      ) : null}
      {full ? (
        <CautionNote title="Too full" text={`${chosen.label} may hold ${ownMass(chosen.mostKg, me)} at most. Stop, and use another.`} />
      ) : null}
      {way === 'recover' ? (
        <>
          <Num
            in={s}
            name="level"
            label="Down to"
            unit={units.pressure.label}
            hint="Gauge pressure where you stopped; below nothing is vacuum."
          />
          <Pick
            in={s}
            name="recoveredFor"
            label="What becomes of it"
            options={RECOVERED_FOR.map((value) => ({ value, label: RECOVERED_FOR_LABEL[value] }))}
          />
        </>
      ) : null}
    </>
  );
}
