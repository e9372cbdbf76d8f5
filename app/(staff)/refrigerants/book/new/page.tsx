import type { Metadata } from 'next';
import { technicians } from '@/lib/features/refrigerant-book/reads/people';
import { unitsOf } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { NewCylinderForm } from '../_components/cylinder-forms';
import { bulkUnit } from '../_components/words';

export const metadata: Metadata = { title: 'Put a cylinder on file' };

export default definePage('write:refrigerant-book', async ({ db, actor }) => {
  const [units, vans] = await Promise.all([unitsOf(db, actor.userId), technicians(db)]);
  return (
    <>
      <Trail items={[{ href: '/refrigerants/book', label: 'Refrigerant book' }]} />
      <PageHead title="Put a cylinder on file" />
      <Sheet>
        <NewCylinderForm unit={bulkUnit(units)} vans={vans} />
      </Sheet>
    </>
  );
});
