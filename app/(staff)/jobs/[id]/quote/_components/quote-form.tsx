'use client';

import { useState } from 'react';
import { money } from '@/lib/core/measures/figures';
import { typedNumber } from '@/lib/core/measures/typed-number';
import { QUOTE_LINE_KINDS, quoteSums, type QuoteLine } from '@/lib/core/jobs/quote';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm, KeptState } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { saveQuote } from '../actions';
import { LineRow, type Typed } from './line-row';

export type PartOffered = { number: string; name: string; priceCents: number; inVans: number; inShop: number };
type Props = {
  jobId: string;
  currency: string;
  draft: { lines: (QuoteLine & { partNumber: string })[]; taxPercent: number; validUntil: string; reason: string; photoIds: string[] };
  /** What an hour and a trip cost the customer on the last quotes, cents. */
  usual: { labour: number | null; trip: number | null };
  weighedIn: 'lb' | 'kg';
  parts: readonly PartOffered[];
  photos: readonly { id: string; fileId: string; caption: string }[];
  /** What is known of how long such work takes. */
  hours: string[];
};

const price = (cents: number) => (cents / 100).toFixed(2);

/** A quote line by line, with what it comes to as it is written. */
export function QuoteForm({ jobId, currency, draft, usual, weighedIn, parts, photos, hours }: Props) {
  const { form, error, on, busy, sent } = useActionForm(saveQuote);
  const [lines, setLines] = useState<Typed[]>(() => sentLines(sent?.lines) ?? first(draft.lines, usual.labour));
  const [tax, setTax] = useState(wordsOf(sent?.taxPercent) ?? String(draft.taxPercent));
  const set = (key: number, change: Partial<Typed>) => setLines(lines.map((l) => (l.key === key ? { ...l, ...change } : l)));
  const add = (kind: Typed['kind']) =>
    setLines([
      ...lines,
      {
        ...BLANK,
        kind,
        key: Math.max(0, ...lines.map((l) => l.key)) + 1,
        unit: kind === 'refrigerant' ? weighedIn : UNIT[kind],
        what: kind === 'labour' ? 'Labour' : kind === 'trip' ? 'Trip' : '',
        price: priced(kind, usual),
        taxed: kind === 'part' || kind === 'refrigerant',
      },
    ]);
  return (
    <ActionForm {...form} className="flex flex-col gap-6">
      <KeptState name="rows" value={lines} onBack={setLines} />
      <FormErrors errors={error('') ?? error('lines')} />
      <Hidden of={{ jobId }} />
      <Sheet title="Why">
        <TextArea
          label="The reason, in two sentences"
          {...on('reason')}
          rows={3}
          defaultValue={wordsOf(sent?.reason) ?? draft.reason}
          hint="The customer reads this first."
          required
        />
        {photos.length > 0 ? (
          <fieldset className="mt-4">
            <legend className="font-bold">Pictures that show it</legend>
            <div className="mt-1 flex flex-wrap gap-3">
              {photos.map((p) => (
                <label key={p.id} className="flex flex-col gap-1 text-sm">
                  {/* eslint-disable-next-line @next/next/no-img-element -- Behind the sign-in, where an optimiser does not reach. */}
                  <img
                    src={`/api/files/${p.fileId}?size=thumb`}
                    alt={p.caption}
                    className="h-24 rounded-md border border-line"
                    loading="lazy"
                  />
                  <span>
                    <input
                      type="checkbox"
                      name="photoIds"
                      value={p.id}
                      defaultChecked={draft.photoIds.includes(p.id)}
                      className="size-5 align-middle"
                    />{' '}
                    {p.caption}
                  </span>
                </label>
              ))}
            </div>
          </fieldset>
        ) : null}
      </Sheet>
      <Sheet title="Lines">
        {hours.map((text) => (
          <p key={text} className="mb-2 text-soft">
            {text}
          </p>
        ))}
        <datalist id="parts">
          {parts.map((p) => (
            <option
              key={p.number}
              value={p.number}
            >{`${p.name}, ${money(p.priceCents, currency)}, ${p.inVans} in the vans, ${p.inShop} in the shop`}</option>
          ))}
        </datalist>
        <ol className="flex flex-col gap-4">
          {lines.map((line, i) => (
            <LineRow
              key={line.key}
              index={i}
              line={line}
              parts={parts}
              on={on}
              onChange={(change) => set(line.key, change)}
              onRemove={() => setLines(lines.filter((l) => l.key !== line.key))}
            />
          ))}
        </ol>
        <noscript>
          <p className="mt-4">More lines; those left empty do not count, and so a line is taken out by emptying it.</p>
          <ol className="mt-2 flex flex-col gap-4">
            {READY.map((n) => (
              <LineRow
                key={n}
                index={lines.length + n}
                line={{ ...BLANK, kind: 'part', quantity: '', unit: 'pcs', taxed: true }}
                parts={parts}
                on={on}
              />
            ))}
          </ol>
        </noscript>
        <div className="mt-4 flex flex-wrap gap-2">
          {(['labour', 'part', 'refrigerant', 'trip', 'other'] as const).map((kind) => (
            <Button key={kind} onClick={() => add(kind)}>
              {ADD[kind]}
            </Button>
          ))}
        </div>
        <div className="mt-6 grid grid-cols-1 gap-4 sm:grid-cols-3">
          <Field
            label="Tax on what is taxed"
            unit="%"
            {...on('taxPercent')}
            inputMode="decimal"
            value={tax}
            onChange={(e) => setTax(e.target.value)}
          />
          <Field
            label="Valid until"
            {...on('validUntil')}
            type="date"
            defaultValue={wordsOf(sent?.validUntil) ?? draft.validUntil}
            required
          />
          <p className="self-end pb-2 text-lg" role="status">
            {total(lines, tax, currency)}
          </p>
        </div>
      </Sheet>
      <div className="flex flex-wrap gap-3">
        <Button type="submit" look="primary" disabled={busy}>
          Save the quote
        </Button>
        <ButtonLink href={`/jobs/${jobId}`} look="quiet">
          Back without saving
        </ButtonLink>
      </div>
    </ActionForm>
  );
}

const priced = (kind: Typed['kind'], usual: Props['usual']): string => {
  const cents = kind === 'labour' || kind === 'trip' ? usual[kind] : null;
  return cents === null ? '' : price(cents);
};

const UNIT: Record<Typed['kind'], string> = { labour: 'h', part: 'pcs', refrigerant: '', trip: 'trip', other: '' };
const ADD: Record<Typed['kind'], string> = {
  labour: 'Add labour',
  part: 'Add a part',
  refrigerant: 'Add refrigerant',
  trip: 'Add the trip',
  other: 'Add something else',
};
const BLANK: Typed = { key: 0, kind: 'labour', what: '', partNumber: '', quantity: '1', unit: '', price: '', taxed: false };

/** Lines that stand ready where no script adds any. */
const READY = [0, 1, 2, 3, 4];

const wordsOf = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

/** Lines as they were sent and came back with a message. */
function sentLines(lines: unknown): Typed[] | undefined {
  if (!Array.isArray(lines)) return undefined;
  return lines.map((line: Record<string, unknown> | undefined, key) => ({
    key,
    kind: QUOTE_LINE_KINDS.find((k) => k === line?.kind) ?? 'other',
    what: wordsOf(line?.what) ?? '',
    partNumber: wordsOf(line?.partNumber) ?? '',
    quantity: wordsOf(line?.quantity) ?? '',
    unit: wordsOf(line?.unit) ?? '',
    price: wordsOf(line?.price) ?? '',
    taxed: line?.taxed === 'on',
  }));
}

const first = (lines: readonly (QuoteLine & { partNumber: string })[], labourCents: number | null): Typed[] =>
  lines.length > 0
    ? lines.map((l, key) => ({ ...l, key, quantity: String(l.quantity), price: price(l.priceCents) }))
    : [{ ...BLANK, unit: 'h', what: 'Labour', price: labourCents === null ? '' : price(labourCents) }];

function total(lines: readonly Typed[], tax: string, currency: string): string {
  try {
    const number = (text: string) => (text.trim() === '' ? 0 : (typedNumber(text) ?? NaN));
    const typed = lines.map((l) => ({ ...l, quantity: number(l.quantity), priceCents: Math.round(number(l.price) * 100) }));
    const sums = quoteSums(typed, number(tax));
    return `${money(sums.netCents, currency)} + ${money(sums.taxCents, currency)} tax = ${money(sums.totalCents, currency)}`;
  } catch {
    return 'Not all of it is a number yet.';
  }
}
