import type { Cause, CauseId } from '@/lib/core/condenser/types';

const LABEL: Record<CauseId, string> = {
  coil_fouling: 'Fouled coil',
  non_condensables: 'Air in the system',
  overcharge: 'Overcharge',
  condenser_fan: 'Condenser fan',
  recirculation: 'Hot air coming round again',
  head_pressure_control: 'Head-pressure control',
  high_load: 'Heavy load or pull-down',
  low_charge: 'Low charge or restriction',
  reading_fault: 'The reading itself',
};
/** Less than this is not worth a technician's time. */
const WORTH_SAYING = 0.08;

/** Likely causes, the likeliest first, each with the look that would decide. */
export function Causes({ causes }: { causes: readonly Cause[] }) {
  const shown = causes.filter((c) => c.weight >= WORTH_SAYING).slice(0, 3);
  if (shown.length === 0) return null;
  return (
    <div className="mt-3">
      <h3>Likely causes</h3>
      <ul className="mt-1 flex flex-col gap-1">
        {shown.map((c) => (
          <li key={c.id} className="grid grid-cols-[3.2rem_1fr] gap-x-3">
            <span className="text-right font-bold">{Math.round(c.weight * 100)} %</span>
            <span>
              <b>{LABEL[c.id]}</b>
              {c.next ? <span className="block text-[0.95rem] text-soft">{c.next}</span> : null}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
