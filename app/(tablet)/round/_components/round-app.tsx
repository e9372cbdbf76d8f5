import { useEffect } from 'react';
import type { Tablet } from '@/lib/tablet/tablet';
import { TabletProvider, useSnapshot } from '../_lib/tablet-context';
import { followLinks, usePlace } from '../_lib/use-place';
import { InstallWorker } from './install-worker';
import { AddUnit, CloseVisit, EntriesPage, TagPage, UnitPage } from './later';
import { LeaveGuard } from './leave-guard';
import { RoundList } from './round-list';
import { NoRound, SignIn, Starting, StorageRefused } from './thresholds';
import { SealedPage } from './sealed/later';
import { TopBar } from './top-bar';
import { VisitPage } from './visit/visit-page';

export function RoundApp({ tablet }: { tablet: Tablet }) {
  useEffect(followLinks, []);
  return (
    <TabletProvider value={tablet}>
      <LeaveGuard />
      <Screen />
    </TabletProvider>
  );
}

function Screen() {
  const phase = useSnapshot((s) => s.phase);
  return (
    <div className="min-h-dvh text-[1.0625rem]">
      <TopBar />
      <InstallWorker />
      <main id="main" className="mx-auto max-w-[64rem] px-3 pb-20 pt-2 sm:px-4 sm:pb-28 sm:pt-4">
        {phase === 'starting' ? (
          <Starting />
        ) : phase === 'sign_in' ? (
          <SignIn />
        ) : phase === 'refused' ? (
          <StorageRefused />
        ) : phase === 'no_round' ? (
          <NoRound />
        ) : (
          <Here />
        )}
      </main>
    </div>
  );
}

function Here() {
  const place = usePlace();
  const visits = useSnapshot((s) => s.visits);
  if (place.at === 'entries') return <EntriesPage />;
  if (place.at === 'tag') return <TagPage code={place.code} />;
  if (place.at === 'round') return <RoundList />;
  const visit = visits.find((v) => v.id === place.visitId);
  if (!visit) return <RoundList gone />;
  if (place.at === 'close') return <CloseVisit visit={visit} />;
  if (place.at === 'add-unit') return <AddUnit visit={visit} />;
  if (place.at === 'unit') {
    const unit = visit.units.find((u) => u.id === place.unitId);
    return unit ? <UnitPage key={unit.id} visit={visit} unit={unit} step={place.step} /> : <VisitPage visit={visit} />;
  }
  if (place.at === 'sealed') {
    const unit = visit.units.find((u) => u.id === place.unitId);
    return unit ? <SealedPage key={unit.id} visit={visit} unit={unit} step={place.step} /> : <VisitPage visit={visit} />;
  }
  return <VisitPage visit={visit} />;
}
