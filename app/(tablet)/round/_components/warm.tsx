import { createRoot } from 'react-dom/client';
import type { Tablet } from '@/lib/tablet/tablet';
import { TabletProvider } from '../_lib/tablet-context';
import { UnitPage } from './later';

/**
 * Draws one unit's page where nobody sees it, and takes it away before anything of it begins: a browser reads code at its first
 * use, and the first tap on a unit is not to wait for that.
 */
export function warmUnitPage(tablet: Tablet): void {
  const visit = tablet.snapshot.visits.find((v) => v.units.length > 0);
  const unit = visit?.units[0];
  if (!visit || !unit) return;
  const root = createRoot(document.createElement('div'));
  root.render(
    <TabletProvider value={tablet}>
      <UnitPage visit={visit} unit={unit} step="look" />
      <UnitPage visit={visit} unit={unit} step="read" />
    </TabletProvider>,
  );
  root.unmount();
}
