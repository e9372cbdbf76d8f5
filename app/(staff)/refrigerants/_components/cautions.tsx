import { whole } from '@/lib/core/measures/figures';
import { REFRIGERANTS, safetyOf } from '@/lib/core/refrigerants/api';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';

/** Safety class and what goes with it, where the refrigerant is chosen. */
export function Cautions({ refrigerant }: { refrigerant: string }) {
  const safety = safetyOf(refrigerant);
  const info = REFRIGERANTS[refrigerant];
  if (!safety || !info) return null;
  return (
    <Sheet>
      <h2 className="mb-2">
        {safety.flammable ? (
          <State shape="ask" tone="alarm">
            {safety.safetyClass}: {safety.meaning}
          </State>
        ) : (
          `${safety.safetyClass}: ${safety.meaning}`
        )}
      </h2>
      <ul className="list-disc pl-5">
        {safety.cautions.map((c) => (
          <li key={c}>{c}</li>
        ))}
      </ul>
      <p className="mt-3 text-sm text-soft">
        {info.name}. {info.gwpAR4 === null ? '' : `GWP ${whole(info.gwpAR4)} (100 years, IPCC AR4). `}Class by ASHRAE 34, from memory: the
        nameplate decides.
      </p>
    </Sheet>
  );
}
