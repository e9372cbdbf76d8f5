import { dayIn } from '@/lib/core/calendar/when';
import { ASPECT_LABEL } from '@/lib/core/findings/grades';
import { FIELD_INFO, ownText, READING_FIELDS, type Me, type PastVisit, type UnitOnFile } from '@/lib/core/tablet';
import { gradeWords } from '../../_lib/grade-words';
import { useSnapshot } from '../../_lib/tablet-context';
import { Thumb } from '../thumb';
import { Fold } from '../touch';

/** The last three visits on one page. */
export function Past({ unit, timeZone }: { unit: UnitOnFile; timeZone: string }) {
  const me = useSnapshot((s) => s.me);
  // The head of the page has said that there is none.
  if (!me || unit.past.length === 0) return null;
  return (
    <Fold
      summary={`Last ${unit.past.length === 1 ? 'visit' : `${unit.past.length} visits`}`}
      short="Last visits"
      aside={summary(unit.past[0])}
    >
      <div className="grid grid-cols-1 gap-4 px-4 pb-4 md:grid-cols-3">
        {unit.past.map((v) => (
          <Visit key={v.visitId} visit={v} timeZone={timeZone} me={me} />
        ))}
      </div>
      {unit.thumbs.length > 0 ? (
        <div className="flex flex-wrap gap-2 px-4 pb-4">
          {unit.thumbs.map((t) => (
            <Thumb
              key={t.fileId}
              fileId={t.fileId}
              alt={`${t.aspect ? ASPECT_LABEL[t.aspect] : 'Unit'}, ${t.phase} cleaning, ${dayIn(Date.parse(t.takenAt), timeZone)}`}
            />
          ))}
        </div>
      ) : null}
    </Fold>
  );
}

function summary(visit: PastVisit | undefined): string {
  const coil = visit?.findings.find((f) => f.aspect === 'coil' && f.phase === 'found');
  return coil ? `coil ${gradeWords(coil)}` : '';
}

function Visit({ visit, timeZone, me }: { visit: PastVisit; timeZone: string; me: Me }) {
  return (
    <section>
      <h3>{dayIn(Date.parse(visit.at), timeZone)}</h3>
      <p className="text-sm text-soft">{visit.by}</p>
      <ul className="mt-1">
        {visit.findings.map((f) => (
          <li key={`${f.aspect} ${f.phase}`}>
            {ASPECT_LABEL[f.aspect]}
            {f.phase === 'left' ? ' as left' : ''}: <b>{gradeWords(f)}</b>
          </li>
        ))}
      </ul>
      {visit.readings.map((r, i) => (
        <div key={i} className="mt-1 text-[0.95rem]">
          <p>
            {r.phase === 'log' ? 'Logged' : r.phase === 'after' ? 'After' : 'Before'}:{' '}
            {READING_FIELDS.filter((f) => r.values[f] !== undefined)
              .map((f) => `${FIELD_INFO[f].label.toLowerCase()} ${ownText(f, r.values[f] ?? NaN, me)}`)
              .join(', ')}
          </p>
          {r.sentence ? <p className="text-soft">{r.sentence}</p> : null}
        </div>
      ))}
    </section>
  );
}
