import type { ReactNode } from 'react';
import type { StepInHand } from '../../_lib/use-sealed';
import { Chip, TouchField } from '../touch';

type Named = { in: StepInHand; name: string; label: string };

/** A number as the instrument shows it, with its unit in the label. */
export function Num({ in: s, name, label, unit, hint }: Named & { unit: string; hint?: string }) {
  return (
    <div>
      <TouchField
        id={`sealed-${name}`}
        label={unit ? `${label} (${unit})` : label}
        inputMode="decimal"
        maxLength={12}
        value={s.draft[name] ?? ''}
        onChange={(e) => s.put(name, e.target.value)}
        aria-describedby={hint ? `sealed-${name}-hint` : undefined}
      />
      {hint ? (
        <p id={`sealed-${name}-hint`} className="mt-1 text-sm text-soft">
          {hint}
        </p>
      ) : null}
    </div>
  );
}

export const TextBox = ({ in: s, name, label, max = 300 }: Named & { max?: number }) => (
  <TouchField
    id={`sealed-${name}`}
    label={label}
    maxLength={max}
    value={s.draft[name] ?? ''}
    onChange={(e) => s.put(name, e.target.value)}
  />
);

/** A thing seen to, the whole line under the thumb. */
export const Tick = ({ in: s, name, label }: Named) => (
  <Chip
    on={s.draft[name] === 'yes'}
    className="w-full !justify-start text-left"
    onClick={() => s.put(name, s.draft[name] === 'yes' ? '' : 'yes')}
  >
    <span aria-hidden="true">{s.draft[name] === 'yes' ? '✓' : '○'}</span> {label}
  </Chip>
);

export function Pick({ in: s, name, label, options }: Named & { options: readonly { value: string; label: string }[] }) {
  return (
    <div role="group" aria-label={label} className="flex flex-col gap-2">
      <p className="font-bold">{label}</p>
      <div className="flex flex-wrap gap-2">
        {options.map((o) => (
          <Chip key={o.value} on={s.draft[name] === o.value} onClick={() => s.put(name, o.value)}>
            {o.label}
          </Chip>
        ))}
      </div>
    </div>
  );
}

/** Values that are usual, each a tap; gone once something stands in the field. */
export const Usual = ({ in: s, name, values, unit }: Omit<Named, 'label'> & { values: readonly string[]; unit: string }) =>
  s.draft[name] ? null : (
    <div className="flex flex-wrap gap-2">
      {values.map((v) => (
        <Chip key={v} onClick={() => s.put(name, v)}>
          {v} {unit}
        </Chip>
      ))}
    </div>
  );

export const Pair = ({ children }: { children: ReactNode }) => (
  <div className="grid grid-cols-2 gap-3 max-[22rem]:grid-cols-1">{children}</div>
);

/** What the figures say, in one frame. */
export function Verdict({ title, alarm = false, children }: { title: string; alarm?: boolean; children?: ReactNode }) {
  return (
    <div role="status" className={`rounded-md border-2 p-3 ${alarm ? 'border-alarm bg-alarm-wash' : 'border-cold bg-cold-wash'}`}>
      <p className={`font-bold ${alarm ? 'text-alarm' : ''}`}>{title}</p>
      {children}
    </div>
  );
}
