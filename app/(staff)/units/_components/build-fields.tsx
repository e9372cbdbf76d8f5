'use client';

import { useState } from 'react';
import * as eq from '@/lib/core/equipment/build';
import { usualBuild, type UsualBuild } from '@/lib/core/equipment/usual-build';
import { Select } from '../../../_ui/field';

const options = <T extends string>(keys: readonly T[], labels: Record<T, string>) => keys.map((value) => ({ value, label: labels[value] }));

const PARTS = [
  { name: 'application', label: 'Temperature', options: options(eq.APPLICATIONS, eq.APPLICATION_LABEL) },
  { name: 'expansion', label: 'Expansion', options: options(eq.EXPANSIONS, eq.EXPANSION_LABEL) },
  {
    name: 'circuitAccess',
    label: 'Circuit',
    options: options(eq.CIRCUIT_ACCESS, eq.CIRCUIT_ACCESS_LABEL),
    hint: 'Sealed ones are read with a clamp: each gauge connection loses charge.',
  },
  { name: 'condenserKind', label: 'Condenser', options: options(eq.CONDENSER_KINDS, eq.CONDENSER_KIND_LABEL) },
] as const;

type Props = { unit?: UsualBuild & { kind: string; placement: string }; error: (name: string) => string[] | undefined };

/** Kind, place and build. A new unit’s build follows its kind until it is chosen by hand. */
export function BuildFields({ unit, error }: Props) {
  const [build, setBuild] = useState<Partial<UsualBuild>>(unit ?? {});
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set());

  function kindChosen(kind: string) {
    if (unit || !kind) return;
    const usual = usualBuild(kind as eq.UnitKind);
    setBuild((b) => ({ ...usual, ...Object.fromEntries(Object.entries(b).filter(([k]) => touched.has(k))) }));
  }

  return (
    <>
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Select
          label="Kind"
          name="kind"
          blank="Choose a kind"
          options={options(eq.UNIT_KINDS, eq.UNIT_KIND_LABEL)}
          defaultValue={unit?.kind ?? ''}
          error={error('kind')}
          onChange={(e) => kindChosen(e.target.value)}
        />
        <Select
          label="What its condenser breathes"
          name="placement"
          blank="Choose the nearest"
          options={options(eq.PLACEMENTS, eq.PLACEMENT_LABEL)}
          defaultValue={unit?.placement ?? ''}
          error={error('placement')}
        />
        {PARTS.map((p) => (
          <Select
            key={p.name}
            label={p.label}
            name={p.name}
            blank={unit ? undefined : 'Choose'}
            options={p.options}
            hint={'hint' in p ? p.hint : undefined}
            value={build[p.name] ?? ''}
            error={error(p.name)}
            onChange={(e) => {
              setBuild((b) => ({ ...b, [p.name]: e.target.value }));
              setTouched((t) => new Set(t).add(p.name));
            }}
          />
        ))}
      </div>
      {unit ? null : <p className="text-sm text-soft">Filled in as usual for the kind (common practice). The nameplate rules.</p>}
    </>
  );
}
