import { FIELD_INFO, type ReadingField } from '@/lib/core/tablet';
import { doubtKey } from '../../_lib/reading-draft';
import { useDraft } from '../../_lib/use-draft';
import { Chip, TouchField } from '../touch';

/** `label` where the field is none of a reading. */
type Doubt = { field: string; question: string; label?: string };
type Props = {
  /** Under which words typed as an answer are kept. */
  draftKey: string;
  doubts: readonly Doubt[];
  answers: Record<string, string>;
  onAnswer: (key: string, answer: string) => void;
  onCorrect: (field: string) => void;
};

/** An odd number is asked about, not refused and not taken in silence; the answer is kept with it. */
export function Doubts({ draftKey, doubts, answers, onAnswer, onCorrect }: Props) {
  return doubts.map((d) => (
    <Question
      key={doubtKey(d)}
      doubt={d}
      draftKey={`${draftKey}:${doubtKey(d)}`}
      answer={answers[doubtKey(d)] ?? ''}
      onAnswer={(a) => onAnswer(doubtKey(d), a)}
      onCorrect={() => onCorrect(d.field)}
    />
  ));
}

function Question({
  draftKey,
  doubt,
  answer,
  onAnswer,
  onCorrect,
}: {
  draftKey: string;
  doubt: Doubt;
  answer: string;
  onAnswer: (a: string) => void;
  onCorrect: () => void;
}) {
  const { draft: other, setDraft: setOther, clear } = useDraft(draftKey, '');
  const label = doubt.label ?? FIELD_INFO[doubt.field as ReadingField]?.label ?? 'Reading';
  return (
    <div role="group" aria-label={`Question about ${label}`} className="rounded-md border-2 border-ink bg-paper p-3">
      <p>
        <b>{label}:</b> {doubt.question}
      </p>
      {answer ? (
        <p className="mt-2 flex flex-wrap items-center gap-3">
          <b>{answer}</b> <Chip onClick={() => onAnswer('')}>Answer again</Chip>
        </p>
      ) : (
        <div className="mt-2 flex flex-wrap items-end gap-2">
          <Chip onClick={onCorrect}>Correct it</Chip>
          <Chip onClick={() => onAnswer('Looked twice: it is what the instrument shows.')}>It is what it shows</Chip>
          <div className="min-w-[14rem] flex-1">
            <TouchField
              id={`doubt-${doubt.field}-${doubt.question.length}`}
              label="Or say what you know"
              value={other}
              maxLength={500}
              onChange={(e) => setOther(e.target.value)}
            />
          </div>
          <Chip
            disabled={other.trim().length < 3}
            onClick={() => {
              onAnswer(other.trim());
              clear();
            }}
          >
            Keep that
          </Chip>
        </div>
      )}
    </div>
  );
}
