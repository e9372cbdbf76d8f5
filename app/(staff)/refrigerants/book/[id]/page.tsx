import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { todayIn } from '@/lib/core/calendar';
import { dateIn, timeIn } from '@/lib/core/calendar/when';
import { isId } from '@/lib/core/ids/is-id';
import { can } from '@/lib/core/people/access';
import { CERTIFICATE_LABEL, CONTENTS_LABEL, CYLINDER_WAY_LABEL } from '@/lib/core/refrigerant-book';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { RECOVERED_FOR_LABEL } from '@/lib/core/sealed/work';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { cylinderWithEntries, type BookEntry } from '@/lib/features/refrigerant-book/reads/book';
import { certificatesInUse, technicians } from '@/lib/features/refrigerant-book/reads/people';
import { unitsOf } from '@/lib/features/people/reads/people';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { definePage } from '@/lib/server/doors/define-page';
import { Facts } from '@/app/_ui/tables/facts';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { Trail } from '@/app/_ui/page/trail';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { GoneForm, PlaceForm, TakeBackForm, WeighForm } from '../_components/cylinder-forms';
import { BALANCE, bulk, bulkUnit } from '../_components/words';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Cylinder' };

export default definePage('read:refrigerant-book', async ({ db, actor, now, params }) => {
  const zone = await shopTimeZone(db);
  const found = isId(params.id) ? await cylinderWithEntries(db, params.id, zone) : null;
  if (!found) notFound();
  const { cylinder: c, entries } = found;
  const [units, vans, certificates] = await Promise.all([unitsOf(db, actor.userId), technicians(db), certificatesInUse(db)]);
  const writes = can(actor, 'write:refrigerant-book') && !c.goneAt;
  const look = BALANCE[c.verdict];
  return (
    <>
      <Trail items={[{ href: '/refrigerants/book', label: 'Refrigerant book' }]} />
      <PageHead
        title={c.label}
        lead={`${refrigerantLabel(c.refrigerant)}, ${CONTENTS_LABEL[c.contents].toLowerCase()}. ${c.goneAt ? `Gone ${dateIn(c.goneAt, zone)}: ${c.goneWhy}` : c.where ? `In the van of ${c.where.name}.` : 'In the shop.'}`}
      />
      <div className="flex flex-col gap-6">
        <Sheet
          title="By the book and by the scale"
          aside={
            <State shape={look.shape} tone={look.tone}>
              {look.label}
            </State>
          }
        >
          <Facts
            items={[
              ['Gas by the book', bulk(c.bookKg, units)],
              ['Should weigh', bulk(c.tareKg + c.bookKg, units)],
              [
                'Scale less book',
                c.differenceKg === null ? 'Not weighed yet' : `${bulk(c.differenceKg, units)} ± ${bulk(2 * c.sdKg, units)} (19 in 20)`,
              ],
              ['Weighed last', c.weighedAt ? `${dateIn(c.weighedAt, zone)}, ${timeIn(c.weighedAt, zone)}` : ''],
              ['Empty', bulk(c.tareKg, units)],
              ['May hold', bulk(c.mostKg, units)],
              ['Gas when it came on file', bulk(c.firstKg, units)],
              ['Note', c.note],
            ]}
          />
        </Sheet>
        <Sheet title="Lines">
          {entries.length === 0 ? (
            <p className="text-soft">No line yet.</p>
          ) : (
            <Lines entries={entries} zone={zone} units={units} writes={writes} />
          )}
        </Sheet>
        {writes ? (
          <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-2">
            <Sheet title="Weigh it, or enter by hand">
              <WeighForm cylinderId={c.id} unit={bulkUnit(units)} today={todayIn(zone, now.getTime())} certificates={certificates} />
            </Sheet>
            <div className="flex flex-col gap-6">
              <Sheet title="Where it is">
                <PlaceForm key={c.version} id={c.id} version={c.version} withUserId={c.where?.id ?? null} vans={vans} />
              </Sheet>
              <Sheet title="Handed in, returned, lost">
                <GoneForm key={c.version} id={c.id} version={c.version} />
              </Sheet>
            </div>
          </div>
        ) : null}
        <ChangeHistory changes={await changesOf(db, 'Cylinder', c.id)} timeZone={zone} />
      </div>
    </>
  );
});

function Lines({ entries, zone, units, writes }: { entries: BookEntry[]; zone: string; units: MeasureUnits; writes: boolean }) {
  return (
    <Table stack label="Lines of this cylinder">
      <thead>
        <tr>
          {['Day', 'What', 'Into the cylinder', 'Scale after', 'Unit', 'By', ''].map((h) => (
            <Th key={h}>{h || <span className="sr-only">Take back</span>}</Th>
          ))}
        </tr>
      </thead>
      <tbody>
        {entries.map((e) => (
          <tr key={e.id} className={e.corrected || e.correctsId ? 'text-soft' : ''}>
            <Td className="font-bold whitespace-nowrap">{dateIn(e.at, zone)}</Td>
            <Td>
              {e.correctsId ? 'Taken back: ' : ''}
              {CYLINDER_WAY_LABEL[e.way]}
              {e.recoveredFor ? `, ${RECOVERED_FOR_LABEL[e.recoveredFor].toLowerCase()}` : ''}
              {e.note ? <span className="block text-sm text-soft">{e.note}</span> : null}
            </Td>
            <Td label="Into the cylinder" className="whitespace-nowrap">
              {e.way === 'scale_check' ? '–' : bulk(e.kg, units, 3)}
            </Td>
            <Td label="Scale after" className="whitespace-nowrap">
              {e.grossAfterKg === null ? '–' : bulk(e.grossAfterKg, units)}
            </Td>
            <Td label="Unit">
              {e.unit ? (
                <>
                  <Link href={`/units/${e.unit.id}/refrigerant`}>{e.unit.name}</Link>
                  <span className="block text-sm text-soft">{fullKitchenName(e.unit.kitchen)}</span>
                </>
              ) : (
                '–'
              )}
            </Td>
            <Td label="By">
              {e.by.name}
              <span className="block text-sm text-soft">
                {e.certificate
                  ? `${CERTIFICATE_LABEL[e.certificate.kind]} ${e.certificate.number}`
                  : e.overruledBy
                    ? `${e.overruledBy} answers: ${e.overruledWhy}`
                    : ''}
              </span>
            </Td>
            <Td>
              {writes && !e.corrected && !e.correctsId && e.way !== 'scale_check' ? (
                <TakeBackForm entryId={e.id} label={`${CYLINDER_WAY_LABEL[e.way]}, ${dateIn(e.at, zone)}`} />
              ) : null}
            </Td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
