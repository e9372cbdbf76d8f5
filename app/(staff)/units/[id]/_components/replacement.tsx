import Link from 'next/link';

type Named = { id: string; name: string };

/** Which unit stood here before, and which stands here now. */
export function Replacement({ replaces, by }: { replaces: Named | null; by: Named | null }) {
  const said = [
    ['In place of', replaces],
    ['Replaced by', by],
  ] as const;
  return said.map(([label, unit]) =>
    unit ? (
      <p key={label} className="mb-3">
        {label}{' '}
        <Link href={`/units/${unit.id}`} className="underline">
          {unit.name}
        </Link>
        .
      </p>
    ) : null,
  );
}
