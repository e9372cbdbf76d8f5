'use client';

import { useState } from 'react';
import type { UnitKind } from '@/lib/core/equipment/build';
import { unitField, usualBuild, type UnitKey, type UnitValues } from '@/lib/core/equipment/unit-fields';
import { ChoiceInput } from './choice-input';
import { keysOfPart } from './parts';

type Build = Partial<Record<UnitKey, string>>;
type Props = { unit?: UnitValues; error: (name: string) => string[] | undefined };

const KEYS = keysOfPart('build');
const buildOf = (unit: UnitValues): Build => Object.fromEntries(KEYS.map((key) => [key, unit[key]]));

/** Kind, place and build. A new unit’s build follows its kind until it is chosen by hand. */
export function BuildFields({ unit, error }: Props) {
  const [build, setBuild] = useState<Build>(unit ? buildOf(unit) : {});
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set());

  function choose(key: UnitKey, value: string) {
    setBuild((b) => {
      const usual = key === 'kind' && value && !unit ? usualBuild(value as UnitKind) : {};
      const byHand = Object.fromEntries(Object.entries(b).filter(([k]) => touched.has(k)));
      return { ...b, ...usual, ...byHand, [key]: value };
    });
    setTouched((t) => new Set(t).add(key));
  }

  return (
    <>
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        {KEYS.map((key) => {
          const field = unitField(key);
          return field.type === 'choice' ? (
            <ChoiceInput
              key={key}
              name={key}
              field={field}
              blank={unit ? undefined : 'Choose'}
              value={build[key] ?? ''}
              error={error(key)}
              onChange={(e) => choose(key, e.target.value)}
            />
          ) : null;
        })}
      </div>
      {unit ? null : <p className="text-sm text-soft">Filled in as usual for the kind (common practice). The nameplate rules.</p>}
    </>
  );
}
