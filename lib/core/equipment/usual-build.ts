import type { Application, CircuitAccess, CondenserKind, Expansion, UnitKind } from './build';

export type UsualBuild = { application: Application; expansion: Expansion; circuitAccess: CircuitAccess; condenserKind: CondenserKind };

/** How a kind of unit is usually built (common practice, from memory): where a form or a file says nothing. The nameplate rules. */
export function usualBuild(kind: UnitKind): UsualBuild {
  const split = kind === 'walk_in_cooler' || kind === 'walk_in_freezer' || kind === 'remote_condensing_unit';
  return {
    application: kind === 'walk_in_freezer' || kind === 'ice_machine' ? 'low' : 'medium',
    expansion: split || kind === 'ice_machine' ? 'valve' : 'capillary',
    circuitAccess: split || kind === 'ice_machine' ? 'ports' : 'sealed',
    condenserKind: 'fin_and_tube',
  };
}
