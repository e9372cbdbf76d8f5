import type { Metadata } from 'next';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { CustomerForm } from '../_components/customer-form';

export const metadata: Metadata = { title: 'New customer' };

export default definePage('write:equipment', async () => (
  <>
    <PageHead title="New customer" lead="Who pays. The kitchens come next." />
    <CustomerForm />
  </>
));
