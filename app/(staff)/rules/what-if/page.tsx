import type { Metadata } from 'next';
import { policyOnFile } from '@/lib/features/evidence/reads/fouling';
import { unitsOf } from '@/lib/features/people/reads/people';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { Empty, PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { WhatIfForm } from '../_components/what-if-form';

export const metadata: Metadata = { title: 'What if' };

export default definePage('overrule:rules', async ({ db, actor }) => {
  const [shop, rules, units] = await Promise.all([shopSettings(db), policyOnFile(db), unitsOf(db, actor.userId)]);
  return (
    <>
      <Trail items={[{ href: '/rules', label: 'Rule changes' }]} />
      <PageHead
        title="What if"
        lead="Move the limits, the risk or the costs and see where visits and money would settle, before anything is saved. Saved settings act at the next visits; no rule changes by itself."
      />
      {shop ? (
        <WhatIfForm rules={rules} seen={shop.updatedAt.toISOString()} degrees={units.temperature} currency={shop.currency} />
      ) : (
        <Empty>Set the shop up first: its settings are kept there.</Empty>
      )}
    </>
  );
});
