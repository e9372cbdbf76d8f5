import { QUOTE_LINE_KINDS, QUOTE_LINE_LABEL, type QuoteLineKind } from '@/lib/core/jobs/quote';
import { Button } from '@/app/_ui/buttons/button';
import { Field, Select } from '@/app/_ui/fields/field';
import type { On } from '@/app/_ui/forms/use-sent-form';
import type { PartOffered } from './quote-form';

export type Typed = {
  key: number;
  kind: QuoteLineKind;
  what: string;
  partNumber: string;
  quantity: string;
  unit: string;
  price: string;
  taxed: boolean;
};

type Props = {
  index: number;
  line: Typed;
  parts: readonly PartOffered[];
  on: On;
  /** Neither where there is no script to hear of it. */
  onChange?: (change: Partial<Typed>) => void;
  onRemove?: () => void;
};

const KINDS = QUOTE_LINE_KINDS.map((value) => ({ value, label: QUOTE_LINE_LABEL[value] }));

/** One line. A number of the shop's list brings its name and price along. */
export function LineRow({ index, line, parts, on, onChange = () => {}, onRemove }: Props) {
  const name = (field: string) => `lines[${index}].${field}`;
  const at = (field: string) => ({ id: name(field), ...on(name(field)) });
  const part = line.partNumber ? parts.find((p) => p.number === line.partNumber) : undefined;
  const takePart = (partNumber: string) => {
    const found = parts.find((p) => p.number === partNumber);
    onChange(found ? { partNumber, what: found.name, price: (found.priceCents / 100).toFixed(2), unit: 'pcs' } : { partNumber });
  };
  return (
    <li className="grid grid-cols-2 items-start gap-3 border-b border-line pb-4 sm:grid-cols-[8rem_minmax(0,2fr)_5rem_5rem_7rem_auto]">
      <Select
        label="Kind"
        {...at('kind')}
        options={KINDS}
        value={line.kind}
        onChange={(e) => onChange({ kind: KINDS.find((k) => k.value === e.target.value)?.value ?? 'other' })}
      />
      <div className="col-span-2 flex flex-col gap-2 sm:col-span-1">
        <Field label="What" {...at('what')} value={line.what} onChange={(e) => onChange({ what: e.target.value })} />
        {line.kind === 'part' ? (
          <Field
            label="Number on the list"
            {...at('partNumber')}
            list="parts"
            value={line.partNumber}
            onChange={(e) => takePart(e.target.value)}
            hint={part ? `${part.inVans} in the vans, ${part.inShop} in the shop` : undefined}
          />
        ) : null}
      </div>
      <Field
        label="How many"
        {...at('quantity')}
        inputMode="decimal"
        value={line.quantity}
        onChange={(e) => onChange({ quantity: e.target.value })}
      />
      <Field label="Of" {...at('unit')} value={line.unit} onChange={(e) => onChange({ unit: e.target.value })} />
      <Field
        label="Price each"
        {...at('price')}
        inputMode="decimal"
        value={line.price}
        onChange={(e) => onChange({ price: e.target.value })}
      />
      <div className="flex flex-col gap-2 sm:pt-7">
        <label className="flex min-h-10 items-center gap-2">
          <input
            type="checkbox"
            name={name('taxed')}
            checked={line.taxed}
            onChange={(e) => onChange({ taxed: e.target.checked })}
            className="size-5"
          />{' '}
          Taxed
        </label>
        {onRemove ? (
          <Button look="quiet" onClick={onRemove} aria-label={`Take out line ${index + 1}`}>
            Take out
          </Button>
        ) : null}
      </div>
    </li>
  );
}
