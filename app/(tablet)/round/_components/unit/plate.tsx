import { unitFacts } from '@/lib/core/equipment/unit-words';
import { measureUnitsOf, type UnitOnFile } from '@/lib/core/tablet';
import { useSnapshot } from '../../_lib/tablet-context';
import { Fold } from '../touch';

/** Said in the head of the page. */
const IN_HEAD = ['name', 'tag', 'kind', 'placement', 'refrigerant', 'make', 'model', 'serial', 'notes'] as const;

/** What is on file of the unit, as the office has it; put into words once somebody opens it. */
export function Plate({ unit }: { unit: UnitOnFile }) {
  return (
    <Fold summary="Nameplate and how it runs" short="Nameplate">
      <Facts unit={unit} />
    </Fold>
  );
}

function Facts({ unit }: { unit: UnitOnFile }) {
  const me = useSnapshot((s) => s.me);
  if (!me) return null;
  return (
    <dl className="grid grid-cols-2 gap-x-4 gap-y-1 px-4 pb-4 sm:grid-cols-3">
      {unitFacts(unit, measureUnitsOf(me), IN_HEAD).map(([label, text]) => (
        <div key={label}>
          <dt className="text-sm text-soft">{label}</dt>
          <dd className="font-bold">{text}</dd>
        </div>
      ))}
    </dl>
  );
}
