import type { ReactNode } from 'react';
import type { ShopOnReport } from '@/lib/core/reports/visit-for-customer';

type Head = { shop: ShopOnReport; kind: string; title: string; lead: string[]; actions?: ReactNode };

/** Who it is from, what it is, and what it comes to. */
export const ReportHead = ({ shop, kind, title, lead, actions }: Head) => (
  <header className="flex flex-col gap-3">
    <div className="flex items-center gap-3">
      {shop.logo ? (
        // eslint-disable-next-line @next/next/no-img-element -- the shop's own mark, kept with the shop
        <img src={`data:image/png;base64,${shop.logo}`} alt="" className="max-h-14 max-w-48" />
      ) : null}
      <p className="font-bold text-cold">{shop.name}</p>
    </div>
    <p className="text-soft">{kind}</p>
    <h1>{title}</h1>
    <p className="max-w-[65ch] text-lg">{lead.join(' ')}</p>
    {actions}
  </header>
);

export const ReportFoot = ({ shop }: { shop: ShopOnReport }) => (
  <footer className="border-t border-line pt-4 text-soft">
    {shop.footer ? <p className="whitespace-pre-line">{shop.footer}</p> : null}
    <p>{[shop.name, shop.phone, shop.email].filter(Boolean).join(' · ')}</p>
  </footer>
);
