import Link from 'next/link';
import type { ReactNode } from 'react';
import { wordsIn, type Language } from '@/lib/core/customer-words';

type Shop = { name: string; phone: string | null } | null;

/** Head and foot of everything on a customer's page: the shop, its telephone, and the other language. */
export function Frame({
  shop,
  language,
  token,
  back = false,
  children,
}: {
  shop: Shop;
  language: Language;
  token: string;
  back?: boolean;
  children: ReactNode;
}) {
  const say = wordsIn(language).yours;
  const other = language === 'en' ? 'es' : 'en';
  return (
    <main lang={language} className="mx-auto flex max-w-3xl flex-col gap-8 px-5 py-8">
      <div className="flex flex-wrap items-center justify-between gap-3">
        <p className="font-bold text-cold">{shop?.name}</p>
        <p className="flex items-center gap-5">
          {shop?.phone ? (
            <a href={`tel:${shop.phone}`} className="inline-flex min-h-11 items-center">
              {say.phone(shop.phone)}
            </a>
          ) : null}
          {back ? (
            <Link href={homeOf(token, language)} className="inline-flex min-h-11 items-center no-print">
              {say.back}
            </Link>
          ) : (
            <Link href={homeOf(token, other)} lang={other} className="inline-flex min-h-11 items-center no-print">
              {say.inOther}
            </Link>
          )}
        </p>
      </div>
      {children}
    </main>
  );
}

const homeOf = (token: string, language: Language) => `/yours/${token}?language=${language}`;
export const placeOf = (token: string, path: string, language: Language) => `/yours/${token}/${path}?language=${language}`;
