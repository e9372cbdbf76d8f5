import { memo, useCallback, useMemo, useState } from 'react';
import { FOOD_LIMIT_K } from '@/lib/core/findings/cautions';
import {
  FIELD_INFO,
  fieldsOutside,
  ownText,
  READING_FIELDS,
  unitOf,
  type ReadingEntry,
  type ReadingField,
  type UnitOnFile,
  type VisitOnFile,
} from '@/lib/core/tablet';
import {
  doubtKey,
  EMPTY_DRAFT,
  enteredOf,
  firstFields,
  gaugeOf,
  moreFields,
  questionedOf,
  valuesOf,
  type ReadingDraft,
} from '../../_lib/reading-draft';
import { useSnapshot } from '../../_lib/tablet-context';
import { useAfterPaint } from '../../_lib/use-after-paint';
import { useDraft } from '../../_lib/use-draft';
import { useEstimator } from '../../_lib/use-estimator';
import { useWrite } from '../../_lib/use-write';
import { CautionNote } from '../caution-note';
import { EntryMark } from '../entry-mark';
import { NumberPad } from '../number-pad';
import { Card, Chip, TouchButton } from '../touch';
import { Doubts } from './doubts';
import { EstimatePanel } from './estimate-panel';
import { Outside } from './outside';

type Props = { visit: VisitOnFile; unit: UnitOnFile; phase: 'before' | 'after' };

/** Readings before or after the cleaning: typed, questioned, saved, and told at once what they mean. */
export const Readings = memo(function Readings({ visit, unit, phase }: Props) {
  const standing = visit.entries.readings.find((r) => r.unitId === unit.id && r.phase === phase);
  const [again, setAgain] = useState(false);
  return (
    <Card id={`readings-${phase}`} title={`Readings ${phase} cleaning`} aside={standing ? <EntryMark id={standing.id} /> : undefined}>
      {standing && !again ? (
        <>
          <Told visit={visit} unit={unit} reading={standing} />
          <Chip className="mt-3" onClick={() => setAgain(true)}>
            Read again
          </Chip>
        </>
      ) : (
        <Typing
          visit={visit}
          unit={unit}
          phase={phase}
          replaces={standing?.id ?? null}
          onSaved={() => setAgain(false)}
          onBack={standing ? () => setAgain(false) : undefined}
        />
      )}
    </Card>
  );
});

function Told({ visit, unit, reading }: { visit: VisitOnFile; unit: UnitOnFile; reading: ReadingEntry }) {
  const me = useSnapshot((s) => s.me);
  if (!me) return null;
  return (
    <div className="flex flex-col gap-3">
      <dl className="grid grid-cols-2 gap-x-4 gap-y-1 sm:grid-cols-4">
        {READING_FIELDS.filter((f) => reading.values[f] !== undefined).map((f) => (
          <div key={f}>
            <dt className="text-sm text-soft">{FIELD_INFO[f].label}</dt>
            <dd className="font-bold">{ownText(f, reading.values[f] ?? NaN, me)}</dd>
          </div>
        ))}
      </dl>
      {reading.questioned.map((q) => (
        <p key={q.question} className="text-sm">
          <b>{q.question}</b> {q.answer}
        </p>
      ))}
      <EstimatePanel
        visit={visit}
        unit={unit}
        reading={{
          phase: reading.phase,
          at: Date.parse(reading.at),
          values: reading.values,
          gaugeGrade: reading.gaugeGrade,
          gaugeSpanPa: reading.gaugeSpanPa,
        }}
      />
    </div>
  );
}

function Typing({
  visit,
  unit,
  phase,
  replaces,
  onSaved,
  onBack,
}: Props & { replaces: string | null; onSaved: () => void; onBack?: () => void }) {
  const me = useSnapshot((s) => s.me);
  const { write, busy } = useWrite(visit.id);
  const { draft, setDraft, clear } = useDraft<ReadingDraft>(`${visit.id}:${unit.id}:${phase}`, EMPTY_DRAFT);
  const [field, setField] = useState<ReadingField | null>(null);
  const [more, setMore] = useState(false);
  const [startedAt] = useState(() => Date.now());
  const estimator = useEstimator(unit.refrigerant);
  const drawn = useAfterPaint(draft);
  const readingOf = useCallback(
    (d: ReadingDraft) => {
      const values = me ? valuesOf(d, me) : {};
      return { phase, at: startedAt, values, ...gaugeOf(values, me) };
    },
    [me, phase, startedAt],
  );
  const reading = useMemo(() => readingOf(drawn), [readingOf, drawn]);
  const outside = useMemo(() => fieldsOutside(reading.values), [reading]);
  const doubts = useMemo(
    () => estimator?.doubtsOf(unit, visit.kitchen, reading).filter((d) => !outside.some((f) => f === d.field)) ?? [],
    [estimator, unit, visit.kitchen, reading, outside],
  );
  if (!me) return null;
  const shown = [...firstFields(unit), ...(more ? moreFields(unit) : moreFields(unit).filter((f) => draft.text[f]))];
  const place = field ? shown.indexOf(field) : -1;
  const next = shown[place + 1];
  const count = Object.keys(reading.values).length;
  const unanswered = doubts.filter((d) => !draft.answers[doubtKey(d)]);
  const warm = unit.application === 'medium' && unit.kind !== 'ice_machine' && (reading.values.boxK ?? 0) > FOOD_LIMIT_K;
  const save = async () => {
    const values = valuesOf(draft, me);
    if (fieldsOutside(values).length > 0) return;
    // Of what stands there now, even if the last key has not been drawn yet.
    const asked = estimator?.doubtsOf(unit, visit.kitchen, readingOf(draft)) ?? [];
    if (asked.some((d) => !draft.answers[doubtKey(d)])) return;
    const saved = await write('reading.add', {
      unitId: unit.id,
      phase,
      values,
      replaces,
      entered: enteredOf(draft, me),
      questioned: questionedOf(draft, asked),
      ...gaugeOf(values, me),
    });
    if (!saved) return;
    clear();
    onSaved();
  };
  return (
    <div className="flex flex-col gap-3">
      <div className="grid grid-cols-2 gap-2 sm:grid-cols-4">
        {shown.map((f) => (
          <button
            key={f}
            type="button"
            onClick={() => setField(f)}
            className="flex min-h-[4.5rem] flex-col justify-between rounded-md border border-edge bg-paper p-2 text-left"
          >
            <span className="text-sm leading-tight text-soft">{FIELD_INFO[f].label}</span>
            <span className="text-xl font-bold">
              {draft.text[f] ? draft.text[f]?.replace('-', '−') : '–'}{' '}
              <span className="text-sm font-normal text-soft">{unitOf(f, me)}</span>
            </span>
          </button>
        ))}
        <button
          type="button"
          aria-expanded={more}
          onClick={() => setMore(!more)}
          className="min-h-[4.5rem] rounded-md border border-dashed border-edge p-2 font-bold text-cold"
        >
          {more ? 'Fewer' : 'More readings'}
        </button>
      </div>
      {unit.circuitAccess === 'sealed' && draft.text.headPaGauge ? (
        <CautionNote
          title="Sealed system"
          words="Each connection loses charge and can start a leak. A clamp on the condenser bend says nearly as much."
        />
      ) : null}
      {warm ? (
        <CautionNote
          title="Box above 41 °F (5 °C)"
          words="If there is food in it, tell someone now and write it down under “Food above 41 °F (5 °C)” below."
        />
      ) : null}
      {outside.map((f) => (
        <Outside key={f} label={FIELD_INFO[f].label} field={f} text={draft.text[f] ?? ''} me={me} onCorrect={() => setField(f)} />
      ))}
      <Doubts
        doubts={doubts}
        answers={draft.answers}
        onAnswer={(key, answer) => setDraft({ ...draft, answers: { ...draft.answers, [key]: answer } })}
        onCorrect={(f) => setField(f as ReadingField)}
      />
      {count > 0 ? <EstimatePanel visit={visit} unit={unit} reading={reading} /> : null}
      <div className="flex flex-wrap items-center gap-2">
        <TouchButton
          look="primary"
          disabled={busy || count === 0 || outside.length > 0 || unanswered.length > 0}
          onClick={() => void save()}
        >
          Save readings
        </TouchButton>
        {onBack ? <Chip onClick={onBack}>Leave as it was</Chip> : null}
        {outside.length > 0 ? (
          <p className="text-sm">Correct {outside.length === 1 ? 'that number' : 'those numbers'} first.</p>
        ) : unanswered.length > 0 ? (
          <p className="text-sm">Answer {unanswered.length === 1 ? 'the question' : 'the questions'} first.</p>
        ) : count > 0 ? (
          <p className="text-sm text-soft">Not saved yet. It waits here if you go back.</p>
        ) : null}
      </div>
      {field ? (
        <NumberPad
          label={FIELD_INFO[field].label}
          unit={unitOf(field, me)}
          hint={FIELD_INFO[field].hint}
          text={draft.text[field] ?? ''}
          signed={FIELD_INFO[field].dimension === 'temperature' || FIELD_INFO[field].dimension === 'pressure'}
          onText={(text) => setDraft({ ...draft, text: { ...draft.text, [field]: text } })}
          onNext={next ? () => setField(next) : null}
          onDone={() => setField(null)}
        />
      ) : null}
    </div>
  );
}
