import type { Metadata } from 'next';
import { languageOr, wordsIn } from '@/lib/core/customer-words';
import { isId } from '@/lib/core/ids/is-id';
import { quoteOnPage } from '@/lib/features/customer-pages/reads/on-page';
import { afterAccepting } from '@/lib/features/jobs/reads/offered-times';
import { quotePhotos } from '@/lib/features/jobs/reads/quotes';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { countQuoteOpening, openPage } from '@/lib/server/doors/customer-links';
import { definePage } from '@/lib/server/doors/define-page';
import { AfterAccepting } from '@/app/_ui/quote/after-accepting';
import { AnswerForm } from '@/app/_ui/quote/answer-form';
import { QuoteView } from '@/app/_ui/quote/quote-view';
import { DeadCustomerLink } from '../../../../_components/dead-customer-link';
import { answerQuote, chooseTime } from '../../actions';
import { Frame } from '../../_components/frame';

export const metadata: Metadata = { title: 'Your quote', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params, query }) => {
  const token = params.token ?? '';
  const page = await openPage(token);
  const quote = page && isId(params.quote) ? await quoteOnPage(db, page, params.quote, now) : null;
  if (!page || !quote) return <DeadCustomerLink />;
  await countQuoteOpening(quote.id);
  const language = languageOr(query.language, page.language);
  const say = wordsIn(language);
  const errors = { ...say.yours.errors };
  const next = page.answersQuotes ? await afterAccepting(db, quote, now) : null;
  return (
    <Frame shop={await shopSettings(db)} language={language} token={token} back>
      <QuoteView
        quote={quote}
        photos={await quotePhotos(db, quote.photoIds)}
        language={language}
        pdf={`/yours/${token}/quotes/${quote.id}/pdf`}
        next={
          next ? (
            <AfterAccepting
              next={next}
              timeZone={quote.job.kitchen.timeZone}
              language={language}
              action={chooseTime}
              hidden={{ token, quoteId: quote.id }}
            />
          ) : null
        }
      >
        {page.answersQuotes ? (
          <AnswerForm action={answerQuote} hidden={{ token, quoteId: quote.id }} language={language} errors={errors} />
        ) : (
          <p className="text-soft">{say.quote.answer.notYours}</p>
        )}
      </QuoteView>
    </Frame>
  );
});
