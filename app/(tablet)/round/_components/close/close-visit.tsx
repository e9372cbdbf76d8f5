import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { signingIn } from '@/lib/core/customer-words/signing';
import { timeAt } from '@/lib/core/calendar/at-offset';
import { State } from '@/app/_ui/states/state';
import { jobsUnsaid, missingToClose, stillToSay, type VisitOnFile } from '@/lib/core/tablet';
import { useDraft } from '../../_lib/use-draft';
import { go, to } from '../../_lib/use-place';
import { useSnapshot } from '../../_lib/tablet-context';
import { useUnsaved } from '../../_lib/use-unsaved';
import { useWrite } from '../../_lib/use-write';
import { Card, Chip, TouchButton } from '../touch';
import { Signature } from './signature';
import { WhatWasDone } from './what-was-done';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

/** What is still missing, the signature, and the closing itself. The office checks the same things again. */
export function CloseVisit({ visit }: { visit: VisitOnFile }) {
  const { write, busy, now } = useWrite(visit.id);
  // Of whoever signs this visit, and of nobody else.
  const { draft: language, setDraft: setLanguage } = useDraft<Language>(`signer-reads:${visit.id}`, 'en');
  const say = signingIn(language);
  const me = useSnapshot((s) => s.me);
  const unsaved = useUnsaved(visit);
  const needed = missingToClose(visit);
  const missing = [
    ...needed
      .filter((m) => m.code !== 'no_signature')
      .map((m) => ({ href: m.unitId ? to.unit(visit.id, m.unitId) : to.visit(visit.id), message: m.message })),
    ...jobsUnsaid(visit).map((j) => ({ href: to.visit(visit.id), message: `Job ${j.number}, ${j.what}: say what became of it.` })),
    ...stillToSay(visit).map((m) => ({ href: to.unit(visit.id, m.unitId, m.step), message: m.message })),
    ...unsaved,
  ];
  // The signature comes last.
  const open = missing[0] ?? needed.find((m) => m.code === 'no_signature');
  const close = async () => {
    if (await write('visit.close', { leftAt: now(), taskIds: visit.tasks.map((t) => t.taskId) })) go(to.visit(visit.id));
  };
  return (
    <div className="flex flex-col gap-4">
      <h1>Close the visit to {fullKitchenName(visit.kitchen)}</h1>
      {missing.length > 0 ? (
        <Card title="Before you leave">
          <ul className="flex flex-col divide-y divide-line">
            {missing.map((m) => (
              <li key={m.message}>
                <a href={m.href} className="flex min-h-14 items-center justify-between gap-3 py-2 text-ink no-underline">
                  <span>{m.message}</span>
                  <State shape="ask" tone="alarm">
                    Go there
                  </State>
                </a>
              </li>
            ))}
          </ul>
        </Card>
      ) : null}
      <Tongue language={language} choose={setLanguage} />
      <div lang={language} className="contents">
        {me ? <WhatWasDone visit={visit} me={me} say={say} /> : null}
      </div>
      {visit.entries.arrivedAt ? (
        <p className="text-soft">
          In {timeAt(Date.parse(visit.entries.arrivedAt), visit.kitchen.utcOffsetMinutes)}; out is set as you close.
        </p>
      ) : null}
      <div lang={language} className="contents">
        <Signature visit={visit} say={say} />
      </div>
      <TouchButton look="primary" disabled={busy || open !== undefined || visit.status === 'done'} onClick={() => void close()}>
        {visit.status === 'done' ? 'Closed' : 'Close the visit and leave'}
      </TouchButton>
      {open ? (
        <p className="text-soft">{missing.length > 1 ? `${missing.length} things are still open, listed above.` : open.message}</p>
      ) : null}
    </div>
  );
}

/** In which language whoever signs reads it. */
const Tongue = ({ language, choose }: { language: Language; choose: (language: Language) => void }) => (
  <div role="group" aria-label="Whoever signs reads" className="flex flex-wrap gap-2">
    {LANGUAGES.map((l) => (
      <Chip key={l} on={l === language} onClick={() => choose(l)}>
        <span lang={l}>{LANGUAGE_LABEL[l]}</span>
      </Chip>
    ))}
  </div>
);
