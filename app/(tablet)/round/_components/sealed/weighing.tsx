import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import type { CylinderOnFile } from '@/lib/core/refrigerant-book/ways';
import { isTooFull, weighedKg } from '@/lib/core/sealed/weighing';
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
  const chosen = all.find((c) => c.id === s.draft.cylinder);
  const scale = { way, startKg: siOf(s.draft.start, units.scale), endKg: siOf(s.draft.end, units.scale) };
  const movedKg = weighedKg(scale);
  return (
    <>
      <TouchSelect
        id="sealed-cylinder"
        label="Cylinder"
        value={s.draft.cylinder ?? ''}
        onChange={(e) => s.put('cylinder', e.target.value)}
        options={[
          { value: '', label: 'Choose' },
          ...fittingFirst(all, unit.refrigerant, way).map((c) => ({ value: c.id, label: cylinderWords(c) })),
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
      {movedKg === null ? null : <Moved kg={movedKg} me={me} way={way} plateKg={unit.chargeKg} />}
      {chosen && isTooFull(scale, chosen) ? (
        <CautionNote title="Too full" text={`${chosen.label} may hold ${ownMass(chosen.mostKg, me)} at most. Stop, and use another.`} />
      ) : null}
      {way === 'recover' ? <AfterRecovery in={s} units={units} /> : null}
    </>
  );
}

/** The unit's own gas first, then what the work asks for (a cylinder for what is recovered, or of new gas), then the own van's. */
function fittingFirst(all: readonly CylinderOnFile[], refrigerant: string, way: Props['way']): CylinderOnFile[] {
  const wanted = way === 'recover' ? 'recovered' : 'new';
  const rank = (c: CylinderOnFile) => (c.refrigerant === refrigerant ? 4 : 0) + (c.contents === wanted ? 2 : 0) + (c.mine ? 1 : 0);
  return all.toSorted((a, b) => rank(b) - rank(a));
}

const cylinderWords = (c: CylinderOnFile): string =>
  `${c.label}, ${refrigerantLabel(c.refrigerant)}${c.contents === 'recovered' ? ' recovered' : ''}${c.mine ? ', in your van' : ''}`;

/** What went over, beside what the plate says when it came out of the unit. */
function Moved({ kg, me, way, plateKg }: { kg: number; me: Me; way: Props['way']; plateKg: number | null }) {
  return (
    <p role="status" className="text-xl font-bold">
      {ownMass(kg, me)} {way === 'recover' ? 'recovered' : 'charged'}
      {way === 'recover' && plateKg !== null ? (
        <span className="text-base font-normal text-soft"> of {ownMass(plateKg, me)} on the plate</span>
      ) : null}
    </p>
  );
}

function AfterRecovery({ in: s, units }: Pick<Props, 'in' | 'units'>) {
  return (
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
  );
}
