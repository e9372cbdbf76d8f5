'use client';

export type Option = { value: string; label: string };

/** The choices of a list, sent as they are and drawn where they are shown: five hundred customers drawn beforehand are twice as much to send. */
export const Options = ({ of }: { of: readonly Option[] }) =>
  of.map((o) => (
    <option key={o.value} value={o.value}>
      {o.label}
    </option>
  ));
