import type { Metadata } from 'next';
import { definePage } from '@/lib/server/doors/define-page';
import { onward } from '@/lib/server/doors/guard';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { ProveForm } from './_components/prove-form';

export const metadata: Metadata = { title: 'Is it you?' };

export default definePage('edit:self', async ({ actor, query }) => (
  <>
    <PageHead
      title="Is it you?"
      lead={`What comes next could harm the shop in wrong hands. You signed in as ${actor.name} a while ago: give the password once more.`}
    />
    <Sheet className="max-w-md">
      <ProveForm to={onward(query.to, '/me')} />
    </Sheet>
  </>
));
