import { QUOTE_LINE_KINDS, QUOTE_LINE_LABEL, type QuoteLineKind } from '@/lib/core/jobs/quote';
import { Button } from '@/app/_ui/buttons/button';
import { Field, Select } from '@/app/_ui/fields/field';
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
  error: (name: string) => string[] | undefined;
  /** Neither where there is no script to hear of it. */
  onChange?: (change: Partial<Typed>) => void;
  onRemove?: () => void;
};

const KINDS = QUOTE_LINE_KINDS.map((value) => ({ value, label: QUOTE_LINE_LABEL[value] }));

/** One line. A number of the shop's list brings its name and price along. */
export function LineRow({ index, line, parts, error, onChange = () => {}, onRemove }: Props) {
  const name = (field: string) => `lines[${index}].${field}`;
  const part = line.partNumber ? parts.find((p) => p.number === line.partNumber) : undefined;
  const takePart = (partNumber: string) => {
    const found = parts.find((p) => p.number === partNumber);
    onChange(found ? { partNumber, what: found.name, price: (found.priceCents / 100).toFixed(2), unit: 'pcs' } : { partNumber });
  };
  return (
    <li className="grid grid-cols-2 items-start gap-3 border-b border-line pb-4 sm:grid-cols-[8rem_minmax(0,2fr)_5rem_5rem_7rem_auto]">
      <Select
        label="Kind"
        id={name('kind')}
        name={name('kind')}
        options={KINDS}
        value={line.kind}
        onChange={(e) => onChange({ kind: KINDS.find((k) => k.value === e.target.value)?.value ?? 'other' })}
        error={error(name('kind'))}
      />
      <div className="col-span-2 flex flex-col gap-2 sm:col-span-1">
        <Field
          label="What"
          id={name('what')}
          name={name('what')}
          value={line.what}
          onChange={(e) => onChange({ what: e.target.value })}
          error={error(name('what'))}
        />
        {line.kind === 'part' ? (
          <Field
            label="Number on the list"
            id={name('partNumber')}
            name={name('partNumber')}
            list="parts"
            value={line.partNumber}
            onChange={(e) => takePart(e.target.value)}
            hint={part ? `${part.inVans} in the vans, ${part.inShop} in the shop` : undefined}
            error={error(name('partNumber'))}
          />
        ) : null}
      </div>
      <Field
        label="How many"
        id={name('quantity')}
        name={name('quantity')}
        inputMode="decimal"
        value={line.quantity}
        onChange={(e) => onChange({ quantity: e.target.value })}
        error={error(name('quantity'))}
      />
      <Field
        label="Of"
        id={name('unit')}
        name={name('unit')}
        value={line.unit}
        onChange={(e) => onChange({ unit: e.target.value })}
        error={error(name('unit'))}
      />
      <Field
        label="Price each"
        id={name('price')}
        name={name('price')}
        inputMode="decimal"
        value={line.price}
        onChange={(e) => onChange({ price: e.target.value })}
        error={error(name('price'))}
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
