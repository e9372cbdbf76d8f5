import { ButtonLink } from '@/app/_ui/buttons/button';

type Props = { earlier: string | null; later: string | null; words: readonly [earlier: string, later: string] };

export const FASTER_SLOWER = ['Faster ones', 'Slower ones'] as const;

/** The ways on from one page of a long list. */
export function MorePages({ earlier, later, words }: Props) {
  return (
    <div className="mt-4 flex gap-2 no-print">
      {earlier ? <ButtonLink href={earlier}>{words[0]}</ButtonLink> : null}
      {later ? <ButtonLink href={later}>{words[1]}</ButtonLink> : null}
    </div>
  );
}
