'use client';

import { useState } from 'react';
import { REFRIGERANT_IDS, REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { flammableCaution, refrigerantLabel, SAFETY_WORDS } from '@/lib/core/refrigerants/naming';
import { Select } from '../../../_ui/field';

const OPTIONS = REFRIGERANT_IDS.map((id) => {
  const cls = REFRIGERANTS[id]?.safetyClass ?? 'A1';
  return { value: id, label: `${refrigerantLabel(id)}  ·  ${cls}, ${SAFETY_WORDS[cls]}` };
});

/** The refrigerant with its safety class; the caution stands beside the choice of one that burns. */
export function RefrigerantField({ value, error }: { value?: string; error?: string[] }) {
  const [id, setId] = useState(value ?? '');
  const caution = flammableCaution(id);
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
              {refrigerantLabel(id)} is {REFRIGERANTS[id]?.safetyClass}.
            </span>{' '}
            {caution}
          </p>
        ) : null}
      </div>
    </div>
  );
}
