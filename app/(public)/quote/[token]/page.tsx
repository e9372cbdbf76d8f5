import type { Metadata } from 'next';
import { wordsIn } from '@/lib/core/customer-words';
import { quoteByLink, quotePhotos } from '@/lib/features/jobs/reads/quotes';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { countQuoteOpening, openLink } from '@/lib/server/doors/customer-links';
import { afterAccepting } from '@/lib/features/jobs/reads/offered-times';
import { AfterAccepting } from '@/app/_ui/quote/after-accepting';
import { AnswerForm } from '@/app/_ui/quote/answer-form';
import { QuoteView } from '@/app/_ui/quote/quote-view';
import { DeadCustomerLink } from '../../_components/dead-customer-link';
import { answer, choose } from './actions';

export const metadata: Metadata = { title: 'Your quote', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params }) => {
  const token = params.token ?? '';
  const quote = await openLink(() => quoteByLink(db, token, now));
  if (!quote) return <DeadCustomerLink />;
  await countQuoteOpening(quote.id);
  const { timeZone, customer } = quote.job.kitchen;
  const { language } = customer;
  const { nameMissing, long, two } = wordsIn(language).quote.answer;
  const next = await afterAccepting(db, quote, now);
  const shop = await shopSettings(db);
  return (
    <main lang={language} className="mx-auto flex max-w-2xl flex-col gap-6 px-5 py-10">
      <p className="font-bold text-cold">
        {shop?.name} {shop?.phone ? <span className="font-normal text-soft">{shop.phone}</span> : null}
      </p>
      <QuoteView
        quote={quote}
        photos={await quotePhotos(db, quote.photoIds)}
        language={language}
        pdf={`/quote/${token}/pdf`}
        next={next ? <AfterAccepting next={next} timeZone={timeZone} language={language} action={choose} hidden={{ token }} /> : null}
      >
        <AnswerForm action={answer} hidden={{ token }} language={language} errors={{ name: nameMissing, long, two }} />
      </QuoteView>
    </main>
  );
});
