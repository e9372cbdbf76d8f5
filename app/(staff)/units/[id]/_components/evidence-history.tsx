import { Figure } from '@/app/_ui/figures/figure';
import { Loss } from '@/app/_ui/figures/loss';
import { differenceIn, PERCENT } from '@/app/_ui/figures/measure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { dayDateWords } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';
import { ASPECT_INFO, gradeLabel, type Aspect } from '@/lib/core/findings/grades';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import type { UnitEvidenceShown } from '@/lib/core/evidence/shown';

type Visit = UnitEvidenceShown['visits'][number];

const FIRST = 10;
/** What the coil's rule is read against; the rest stands on the visit's own page. */
const SHOWN = ['coil', 'condenser_fan', 'ice', 'drain'] as const satisfies readonly Aspect[];

/** Every visit to the unit, newest first; the older ones behind a fold. */
export function EvidenceHistory({ visits, units }: { visits: Visit[]; units: MeasureUnits }) {
  const older = visits.slice(FIRST);
  return (
    <>
      <VisitTable label="Visits, findings and readings" visits={visits.slice(0, FIRST)} units={units} />
      {older.length > 0 ? (
        <details className="mt-3">
          <summary className="font-bold text-cold">{counted(older.length, 'earlier visit')}</summary>
          <div className="mt-3">
            <VisitTable label="Earlier visits" visits={older} units={units} />
          </div>
        </details>
      ) : null}
    </>
  );
}

function VisitTable({ label, visits, units }: { label: string; visits: Visit[]; units: MeasureUnits }) {
  return (
    <Table label={label}>
      <thead>
        <tr>
          <Th>Date</Th>
          {SHOWN.map((a) => (
            <Th key={a}>{ASPECT_INFO[a].subject}</Th>
          ))}
          <Th>Rise before</Th>
          <Th>Lost before</Th>
          <Th>Lost after</Th>
          <Th>Done</Th>
        </tr>
      </thead>
      <tbody>
        {visits.map((v) => (
          <tr key={v.id}>
            <Td className="whitespace-nowrap">
              <a href={`/visits/${v.id}`}>{dayDateWords(v.on)}</a>
              <div className="text-sm text-soft">{v.technician}</div>
            </Td>
            {v.outcome?.outcome === 'could_not_reach' ? (
              <Td colSpan={SHOWN.length + 4}>
                <b>Could not reach:</b> {v.outcome.reason}
              </Td>
            ) : (
              <>
                {SHOWN.map((a) => (
                  <Td key={a}>{both(v, a)}</Td>
                ))}
                <Read visit={v} phase="before" what="rise" units={units} />
                <Read visit={v} phase="before" what="lost" units={units} />
                <Read visit={v} phase="after" what="lost" units={units} />
                <Td className="min-w-36 text-sm">{sentence(v.done) || '—'}</Td>
              </>
            )}
          </tr>
        ))}
      </tbody>
    </Table>
  );
}

/** "Coil cleaning, drain inspection". */
const sentence = (parts: string[]) => parts.map((w, i) => (i === 0 ? w : w.charAt(0).toLowerCase() + w.slice(1))).join(', ');

/** "Packed → bare": as found, and as left where that was written down. */
function both(v: Visit, aspect: Aspect): string {
  const of = (phase: string) => v.findings.find((f) => f.aspect === aspect && f.phase === phase);
  const found = of('found');
  const left = of('left');
  const met = found ? (found.grade ? gradeLabel(aspect, found.grade) : `not looked at: ${found.notLookedWhy}`) : '—';
  return left?.grade ? `${met} → ${gradeLabel(aspect, left.grade).toLowerCase()}` : met;
}

function Read({ visit, phase, what, units }: { visit: Visit; phase: string; what: 'rise' | 'lost'; units: MeasureUnits }) {
  const e = visit.readings.find((r) => r.phase === phase)?.estimate;
  if (!e) return <Td className="text-soft">—</Td>;
  if (what === 'rise')
    return (
      <Td className="lg:whitespace-nowrap">
        {e.riseK ? <Figure of={e.riseK} scale={differenceIn(units)} /> : <span className="text-soft">can’t say</span>}
      </Td>
    );
  return (
    <Td className="lg:whitespace-nowrap">
      {e.status === 'ok' ? <Loss of={e.conductanceLost} scale={PERCENT} none="none" /> : <span className="text-soft">can’t say</span>}
    </Td>
  );
}
