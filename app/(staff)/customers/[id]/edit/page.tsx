import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { customerToEdit } from '@/lib/features/customers/reads/customers';
import { isId } from '@/lib/core/ids/is-id';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { CustomerForm } from '../../_components/customer-form';

export const metadata: Metadata = { title: 'Edit customer' };

export default definePage('write:equipment', async ({ db, params }) => {
  const customer = isId(params.id) ? await customerToEdit(db, params.id) : null;
  if (!customer) notFound();
  return (
    <>
      <PageHead title={`Edit ${customer.name}`} />
      <CustomerForm customer={customer} />
    </>
  );
});
