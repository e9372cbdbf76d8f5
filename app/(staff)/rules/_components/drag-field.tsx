'use client';

import { useState } from 'react';
import { typedNumber } from '@/lib/core/measures/typed-number';
import { Field } from '@/app/_ui/fields/field';

type Props = {
  row: { name: string; label: string; unit: string; value: number; hint?: string; drag?: [min: number, max: number, step: number] };
  error?: string[];
  /** Called when a dragged value is let go. */
  onLet: () => void;
};

/** A number to type or to drag; let go of, it asks what would move. Beyond the slider's ends it can still be typed. */
export function DragField({ row, error, onLet }: Props) {
  const [text, setText] = useState(String(row.value));
  return (
    <div>
      <Field
        name={row.name}
        label={row.label}
        unit={row.unit}
        hint={row.hint}
        value={text}
        onChange={(e) => setText(e.target.value)}
        inputMode="decimal"
        autoComplete="off"
        error={error}
      />
      {row.drag ? (
        <input
          type="range"
          aria-label={`Drag: ${row.label.toLowerCase()}, ${row.unit}`}
          min={row.drag[0]}
          max={row.drag[1]}
          step={row.drag[2]}
          value={typedNumber(text) ?? row.drag[0]}
          onChange={(e) => setText(e.target.value)}
          onPointerUp={onLet}
          onKeyUp={(e) => (e.key.startsWith('Arrow') ? onLet() : undefined)}
          className="mt-1 h-7 w-full accent-cold"
        />
      ) : null}
    </div>
  );
}
