import type { Metadata } from 'next';
import { unitsOf } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { PersonForm } from '../_components/person-form';

export const metadata: Metadata = { title: 'New person' };

export default definePage('manage:people', async ({ db, actor }) => (
  <>
    <Trail items={[{ href: '/people', label: 'People' }]} />
    <PageHead title="New person" />
    <PersonForm units={await unitsOf(db, actor.userId)} />
  </>
));
