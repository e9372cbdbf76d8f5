import type { Metadata } from 'next';
import { redirect } from 'next/navigation';
import { REGIONS } from '@/lib/core/measures/region';
import { costsOf, hasLogo, shopSettings } from '@/lib/features/shop/reads/settings';
import { taskKinds } from '@/lib/features/tasks/reads/task-kinds';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { KindRow, NewKindForm } from './_components/kind-forms';
import { CostsForm } from './_components/costs-form';
import { ReportLookForm } from './_components/report-look-form';
import { WeeklyForm } from './_components/weekly-form';
import { ShopForm } from './_components/shop-form';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';

export const metadata: Metadata = { title: 'Shop' };

export default definePage('manage:shop', async ({ db }) => {
  const [shop, kinds, logo] = await Promise.all([shopSettings(db), taskKinds(db), hasLogo(db)]);
  if (!shop) redirect('/set-up');
  const seen = shop.updatedAt.toISOString();
  return (
    <>
      <PageHead title="Shop" actions={<ButtonLink href="/shop/archive">Everything as one file</ButtonLink>} />
      <div className="flex flex-col gap-8">
        <ShopForm shop={{ ...shop, phone: shop.phone ?? '', email: shop.email ?? '' }} seen={seen} />
        <CostsForm costs={costsOf(shop)} currency={shop.currency} distance={REGIONS[shop.region].distance} seen={seen} />
        <ReportLookForm footer={shop.reportWords} hasLogo={logo} seen={seen} />
        <WeeklyForm on={shop.weeklyLetter} />
        <Sheet title="Kinds of task">
          <p className="mb-2 max-w-[75ch] text-soft">
            Every unit starts with the usual ones for its kind, coil cleanings by what the condenser breathes (common practice). Add what
            your contracts ask for beyond them, such as changing a water filter, and give it to units on their own pages.
          </p>
          {kinds.map((k) => (
            <KindRow key={k.key} kind={k} />
          ))}
          <NewKindForm count={kinds.length} />
        </Sheet>
        <ChangeHistory changes={await changesOf(db, 'ShopSettings', '1')} timeZone={shop.timeZone} />
      </div>
    </>
  );
});
