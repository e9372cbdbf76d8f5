import { memo, useEffect, useState } from 'react';
import {
  FIELD_INFO,
  ownText,
  READING_FIELDS,
  tooWarmForFood,
  unitOf,
  type Me,
  type ReadingEntry,
  type ReadingField,
  type UnitOnFile,
  type VisitOnFile,
} from '@/lib/core/tablet';
import { readingHint } from '@/lib/core/entries/reading-fields';
import { firstFields, moreFields } from '../../_lib/reading-draft';
import { useSnapshot } from '../../_lib/tablet-context';
import { useDrawn } from '../../_lib/use-after-paint';
import { useReading } from '../../_lib/use-reading';
import { CautionNote } from '../caution-note';
import { EntryMark } from '../entry-mark';
import { keyed, NumberPad } from '../number-pad';
import { Card, Chip, TouchButton } from '../touch';
import { Doubts } from './doubts';
import { EstimatePanel } from './estimate-panel';
import { Outside } from './outside';
import type { BeforeLeaving } from './unit-page';

type Props = { visit: VisitOnFile; unit: UnitOnFile; phase: 'before' | 'after'; leavingRef: BeforeLeaving };

/** Readings before or after the cleaning: typed, questioned, saved, and told at once what they mean. */
export const Readings = memo(function Readings({ visit, unit, phase, leavingRef }: Props) {
  const standing = visit.entries.readings.find((r) => r.unitId === unit.id && r.phase === phase);
  const [again, setAgain] = useState(false);
  return (
    <Card id={`readings-${phase}`} title={`Readings ${phase} cleaning`} aside={standing ? <EntryMark id={standing.id} /> : undefined}>
      {standing && !again ? (
        <>
          <ReadingEstimate visit={visit} unit={unit} reading={standing} />
          <Chip className="mt-3" onClick={() => setAgain(true)}>
            Read again
          </Chip>
        </>
      ) : (
        <Typing
          visit={visit}
          unit={unit}
          phase={phase}
          leavingRef={leavingRef}
          replaces={standing?.id ?? null}
          onSaved={() => setAgain(false)}
          onBack={standing ? () => setAgain(false) : undefined}
        />
      )}
    </Card>
  );
});

function ReadingEstimate({ visit, unit, reading }: { visit: VisitOnFile; unit: UnitOnFile; reading: ReadingEntry }) {
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
  leavingRef,
  replaces,
  onSaved,
  onBack,
}: Props & { replaces: string | null; onSaved: () => void; onBack?: () => void }) {
  const me = useSnapshot((s) => s.me);
  const r = useReading({ visit, unit, phase, replaces, onSaved });
  const [asked, setAsked] = useState<ReadingField | null>(null);
  const [more, setMore] = useState(false);
  const drawn = useDrawn();
  const { save, typed } = r;
  useSavedOnLeaving(leavingRef, typed, save);
  if (!me) return null;
  const shown = shownFields(unit, more, r.draft.text);
  // The pad stands ready from the first, a picture after its fields.
  const field = asked ?? shown[0] ?? null;
  const setField = (f: ReadingField) => {
    setAsked(f);
    // On a phone the pad may stand over what was asked for.
    document.querySelector(`#readings-${phase} [data-field="${f}"]`)?.scrollIntoView({ block: 'nearest' });
  };
  const next = field ? shown[shown.indexOf(field) + 1] : undefined;
  const type = (text: string) => field && r.setDraft({ ...r.draft, text: { ...r.draft.text, [field]: text } });
  const pad = field && {
    label: FIELD_INFO[field].label,
    unit: unitOf(field, me),
    hint: readingHint(field, unit),
    text: r.draft.text[field] ?? '',
    signed: maySink(field),
    onText: type,
    onNext: next ? () => setField(next) : null,
  };
  const ready = mayBeSaved(r);
  return (
    <div
      className="flex flex-col gap-3"
      onKeyDown={(e) => {
        if (!pad || (e.target as HTMLElement).tagName === 'INPUT') return;
        const text = keyed(pad.text, e.key, pad.signed);
        if (text === null) return;
        e.preventDefault();
        type(text);
      }}
    >
      <WhenToRead unit={unit} />
      <div className="grid gap-3 sm:grid-cols-[1fr_19rem]">
        <Boxes
          shown={shown}
          field={field}
          phase={phase}
          text={r.text}
          me={me}
          more={more}
          onField={setField}
          onMore={() => setMore(!more)}
        />
        {pad && drawn ? (
          <div className={asked ? 'sticky bottom-[4.25rem] z-[5]' : ''}>
            <NumberPad {...pad} onSave={ready ? () => void save() : null} />
          </div>
        ) : null}
      </div>
      <Cautions unit={unit} gauged={!!r.draft.text.headPaGauge} boxK={r.reading.values.boxK} />
      {r.outside.map((f) => (
        <Outside key={f} label={FIELD_INFO[f].label} field={f} text={r.draft.text[f] ?? ''} me={me} onCorrect={() => setField(f)} />
      ))}
      <Doubts
        draftKey={`${visit.id}:${unit.id}:${phase}:doubt`}
        doubts={r.doubts}
        answers={r.draft.answers}
        onAnswer={(key, answer) => r.setDraft({ ...r.draft, answers: { ...r.draft.answers, [key]: answer } })}
        onCorrect={(f) => setField(f as ReadingField)}
      />
      {r.typed ? <EstimatePanel visit={visit} unit={unit} reading={r.reading} /> : null}
      <div className="flex flex-wrap items-center gap-2">
        <TouchButton look="primary" className="max-sm:min-h-12 max-sm:py-1 max-sm:text-base" disabled={!ready} onClick={() => void save()}>
          Save readings
        </TouchButton>
        {onBack ? <Chip onClick={onBack}>Leave as it was</Chip> : null}
        <p className="min-w-0 flex-1 text-sm leading-tight">{wordsBeforeSaving(r)}</p>
      </div>
    </div>
  );
}

const mayBeSaved = ({ typed, busy, outside, unanswered }: ReturnType<typeof useReading>): boolean =>
  typed && !busy && outside.length === 0 && unanswered.length === 0;

/** What is typed is saved when the page is left. */
function useSavedOnLeaving(leavingRef: BeforeLeaving, typed: boolean, save: () => Promise<boolean>) {
  useEffect(() => {
    leavingRef.current = async () => !typed || save();
    return () => {
      leavingRef.current = null;
    };
  }, [leavingRef, save, typed]);
}

type Text = ReturnType<typeof useReading>['text'];

/** What this unit is read for first; of the rest what has been typed, or all of it when asked. */
const shownFields = (unit: UnitOnFile, more: boolean, text: Text): ReadingField[] => [
  ...firstFields(unit),
  ...moreFields(unit).filter((f) => more || text[f]),
];

/** Below nothing there are temperatures, and pressures in a vacuum. */
const maySink = (field: ReadingField): boolean => ['temperature', 'pressure'].includes(FIELD_INFO[field].dimension);

type BoxesProps = {
  shown: readonly ReadingField[];
  field: ReadingField | null;
  phase: Props['phase'];
  text: Text;
  me: Me;
  more: boolean;
  onField: (f: ReadingField) => void;
  onMore: () => void;
};

/** What is read, each in a box of its own; the one in hand is typed on the pad. */
function Boxes({ shown, field, phase, text, me, more, onField, onMore }: BoxesProps) {
  return (
    <div className="grid grid-cols-2 content-start gap-1.5 sm:gap-2">
      {shown.map((f) => (
        <button
          key={f}
          type="button"
          data-field={f}
          onClick={() => onField(f)}
          aria-current={f === field ? 'true' : undefined}
          className={`flex min-h-14 scroll-mb-[26rem] scroll-mt-28 flex-col justify-between rounded-md border p-2 text-left sm:min-h-[4.5rem] sm:scroll-mb-20 ${f === field ? 'border-2 border-cold bg-cold-wash' : 'border-edge bg-paper'}`}
        >
          <span className="text-sm leading-tight text-soft">
            {f === 'boxK' && phase === 'after' ? 'Box, on leaving' : FIELD_INFO[f].label}
          </span>
          <span className="text-xl font-bold">
            {text[f] ? text[f]?.replace('-', '−') : '–'} <span className="text-sm font-normal text-soft">{unitOf(f, me)}</span>
          </span>
        </button>
      ))}
      <button
        type="button"
        aria-expanded={more}
        onClick={onMore}
        className={`min-h-12 rounded-md border border-dashed border-edge p-2 font-bold text-cold sm:min-h-14 ${shown.length % 2 === 0 ? 'col-span-2' : ''}`}
      >
        {more ? 'Fewer' : 'More readings'}
      </button>
    </div>
  );
}

function WhenToRead({ unit }: { unit: UnitOnFile }) {
  if (unit.kind !== 'ice_machine') return null;
  return <p>Read in the middle of the freeze, at least five minutes after a harvest: in harvest the numbers say nothing.</p>;
}

function Cautions({ unit, gauged, boxK }: { unit: UnitOnFile; gauged: boolean; boxK: number | undefined }) {
  return (
    <>
      {unit.circuitAccess === 'sealed' && gauged ? (
        <CautionNote
          title="Sealed system"
          text="Each connection loses charge and can start a leak. A clamp on the condenser bend says nearly as much."
        />
      ) : null}
      {boxK !== undefined && tooWarmForFood(unit, boxK) ? (
        <CautionNote title="Box above 41 °F (5 °C)" text="If there is food in it, tell someone now; the last step asks whom." />
      ) : null}
    </>
  );
}

function wordsBeforeSaving({ outside, unanswered, typed, kept }: ReturnType<typeof useReading>): string {
  if (outside.length > 0) return `Correct ${outside.length === 1 ? 'that number' : 'those numbers'} first.`;
  if (unanswered.length > 0) return `Answer ${unanswered.length === 1 ? 'the question' : 'the questions'} first.`;
  if (!typed) return '';
  return kept ? 'Saved as you go on; until then it waits here.' : 'This tablet can’t keep it unsaved: save it now.';
}
