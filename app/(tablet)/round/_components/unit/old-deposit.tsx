import { State } from '@/app/_ui/states/state';
import type { UnitOnFile } from '@/lib/core/tablet';

/** Said before the coil is brushed once more: what that leaves behind, and what takes it off. */
export function OldDeposit({ unit }: { unit: UnitOnFile }) {
  if (!unit.oldDeposit) return null;
  return (
    <details className="rounded-md border border-edge bg-sunk px-3 py-1">
      <summary className="flex min-h-12 items-center gap-3">
        <State shape="ask" tone="ink">
          <span className="whitespace-normal">Old deposit: brushing alone no longer brings this coil back. Wash it right through.</span>
        </State>
        <span className="ml-auto text-cold underline">Why</span>
      </summary>
      <p className="pb-2 text-[0.95rem]">{unit.oldDeposit}</p>
    </details>
  );
}
