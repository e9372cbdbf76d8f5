import type { ReactNode } from 'react';

/** Facts of a record, two or three abreast. An empty one is left out. */
export function Facts({ items }: { items: readonly (readonly [label: string, value: ReactNode])[] }) {
  const shown = items.filter(([, value]) => value !== null && value !== undefined && value !== '');
  return (
    <dl className="grid grid-cols-2 sm:grid-cols-[repeat(auto-fill,minmax(13rem,1fr))] gap-x-6 gap-y-3">
      {shown.map(([label, value]) => (
        <div key={label}>
          <dt className="text-sm text-soft">{label}</dt>
          <dd className="break-words">{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** What was typed in several lines, as it was typed. Empty is left out, like every fact. */
export const asTyped = (words: string): ReactNode => (words ? <span className="whitespace-pre-line">{words}</span> : '');
export const phoneLink = (number: string): ReactNode => (number ? <a href={`tel:${number}`}>{number}</a> : '');
export const mailLink = (address: string): ReactNode => (address ? <a href={`mailto:${address}`}>{address}</a> : '');
