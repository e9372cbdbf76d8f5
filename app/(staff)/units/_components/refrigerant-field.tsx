'use client';

import { useState } from 'react';
import {
  FILED_REFRIGERANTS,
  isFiledRefrigerant,
  REFRIGERANTS,
  safetyClassOf,
  UNKNOWN_REFRIGERANT,
} from '@/lib/core/refrigerants/catalogue';
import { flammableCaution, refrigerantLabel, SAFETY_WORDS } from '@/lib/core/refrigerants/naming';
import { Select } from '@/app/_ui/fields/field';

const OPTIONS = [
  ...FILED_REFRIGERANTS.map(({ id, safetyClass, estimated }) => ({
    value: id,
    label: `${refrigerantLabel(id)}  ·  ${safetyClass}, ${SAFETY_WORDS[safetyClass]}${estimated ? '' : ' · not estimated'}`,
  })),
  { value: UNKNOWN_REFRIGERANT, label: 'Not known: the nameplate cannot be read' },
];

/** The refrigerant with its safety class; the caution stands beside the choice of one that burns. Of what is on file the unit's page has said it. */
export function RefrigerantField({ value, error }: { value?: string; error?: string[] }) {
  const [onFile] = useState(value ?? '');
  const [id, setId] = useState(onFile);
  const caution = id === onFile ? null : flammableCaution(id);
  return (
    <div className="flex flex-col gap-2">
      <Select
        label="Refrigerant"
        name="refrigerant"
        blank="Choose from the nameplate"
        options={OPTIONS}
        defaultValue={value ?? ''}
        error={error}
        onChange={(e) => setId(e.target.value)}
      />
      <div aria-live="polite">
        {caution ? (
          <p className="border-l-4 border-alarm bg-alarm-wash px-3 py-2 text-sm">
            <span className="font-bold text-alarm">
              {refrigerantLabel(id)} is {safetyClassOf(id)}.
            </span>{' '}
            {caution}
          </p>
        ) : id && isFiledRefrigerant(id) && !REFRIGERANTS[id] ? (
          <p className="text-sm text-soft">We hold no equations for it: readings are kept, and nothing is estimated from them.</p>
        ) : null}
      </div>
    </div>
  );
}
