import { spanWords, unitOf, type OwnUnits, type ReadingField } from '@/lib/core/tablet';
import { Chip } from '../touch';

type Props = { label: string; field: ReadingField; text: string; me: OwnUnits; onCorrect: () => void };

/** A number the office cannot file: said before it is saved, as the whole entry would come back. */
export function Outside({ label, field, text, me, onCorrect }: Props) {
  return (
    <div role="alert" className="flex flex-wrap items-center gap-3 rounded-md border-2 border-alarm bg-alarm-wash p-3">
      <p className="min-w-[14rem] flex-1">
        <b className="text-alarm">
          {label}: {text.replace('-', '−')} {unitOf(field, me)} cannot be saved.
        </b>{' '}
        Only {spanWords(field, me)} can.
      </p>
      <Chip onClick={onCorrect}>Correct it</Chip>
    </div>
  );
}
