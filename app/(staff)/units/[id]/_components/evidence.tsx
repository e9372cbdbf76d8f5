import { describeRule } from '@/lib/core/calendar';
import type { UnitEvidenceShown } from '@/lib/core/evidence/shown';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { Empty, Sheet } from '@/app/_ui/page/sheet';
import { dayWords } from '@/lib/core/calendar/when';
import { CourseChart } from './evidence-course-chart';
import { CycleChart } from './evidence-cycle-chart';
import { EvidenceFigures } from './evidence-figures';
import { HeadChart } from './evidence-head-chart';
import { EvidenceHistory } from './evidence-history';
import { EvidenceForecast } from './evidence-forecast';

/** What is known of a unit's coil and low side, from its readings and findings, and what follows from it. */
export function UnitEvidence({
  evidence,
  units,
  name,
  unitId,
}: {
  evidence: UnitEvidenceShown;
  units: MeasureUnits;
  name: string;
  unitId: string;
}) {
  const { latest, visits } = evidence;
  if (visits.length === 0 && !latest)
    return (
      <section aria-label="Evidence">
        <Empty>
          After the first visit this shows how fast {name} fouls, what that costs, and when it is due and why. Until then it is taken to be
          like others of its kind that stand where it stands.
        </Empty>
      </section>
    );
  return (
    <section aria-label="Evidence" className="flex flex-col gap-6">
      {evidence.unit.condenserKind === 'water_cooled' ? null : <CoilEvidence evidence={evidence} units={units} />}
      <Sheet title="Visits, findings and readings">
        <EvidenceHistory visits={visits} units={units} />
        {evidence.moreVisits ? (
          <p className="mt-3">
            <a className="font-bold text-cold" href={`/units/${unitId}?visits=all#evidence`}>
              All visits
            </a>
          </p>
        ) : null}
      </Sheet>
    </section>
  );
}

/** Of a condenser cooled by air: water fouls another way, and the air says nothing of it. */
function CoilEvidence({ evidence, units }: { evidence: UnitEvidenceShown; units: MeasureUnits }) {
  const { latest, course, fan, cycle, coil } = evidence;
  return (
    <>
      <Sheet
        title="How the coil went"
        aside={
          coil ? (
            <span className="text-sm text-soft">
              next cleaning {dayWords(coil.dueOn)}, {describeRule(coil.rule)}
            </span>
          ) : null
        }
      >
        <CourseChart
          course={course}
          fan={fan}
          readings={evidence.readings}
          cleanings={[...evidence.cleanings]}
          limits={evidence.ownLimits?.limits ?? []}
          today={evidence.today}
          dueOn={coil?.dueOn ?? null}
        />
        <EvidenceForecast evidence={evidence} />
      </Sheet>
      <EvidenceFigures evidence={evidence} units={units} />
      <div className="grid grid-cols-[minmax(0,1fr)] gap-6 lg:grid-cols-2">
        <HeadSheet evidence={evidence} units={units} />
        <Sheet
          title="The cycle at the last reading"
          aside={latest ? <span className="text-sm text-soft">{dayWords(latest.on)}</span> : null}
        >
          {cycle ? (
            <CycleChart picture={cycle} units={units} refrigerant={evidence.unit.refrigerant} />
          ) : (
            <p className="text-soft">No reading that gives a whole cycle yet.</p>
          )}
        </Sheet>
      </div>
    </>
  );
}

/** Head against air, with the air at which the machine would trip as it is now and clean. */
function HeadSheet({ evidence: { head, latest }, units }: { evidence: UnitEvidenceShown; units: MeasureUnits }) {
  const trips = latest?.estimate.status === 'ok' ? latest.estimate.cutoutAirK : null;
  return (
    <Sheet title={head?.by === 'head' ? 'Head against air' : 'Condensing against air'}>
      {head ? (
        <HeadChart picture={head} units={units} tripNowK={trips?.now.value ?? null} tripCleanK={trips?.clean.value ?? null} />
      ) : (
        <p className="text-soft">No numbers for this refrigerant at these temperatures.</p>
      )}
    </Sheet>
  );
}
