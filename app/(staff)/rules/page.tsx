import { keysOf } from '@/lib/core/typed/closed-set';
import type { Metadata } from 'next';
import Link from 'next/link';
import { isId } from '@/lib/core/ids/is-id';
import { can } from '@/lib/core/people/access';
import { ruleChanges, unreadChanges, type RuleChangeRow } from '@/lib/features/owner/reads/changes';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { policyOnFile } from '@/lib/features/evidence/reads/fouling';
import { cleaningPrices, shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { dayIn } from '@/lib/core/calendar/when';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { AssumedCosts } from './_components/assumed-costs';
import { ChangeGroups } from './_components/change-groups';
import { ChangeRow } from './_components/change-row';

export const metadata: Metadata = { title: 'Rule changes' };

const DAY = 86_400_000;
const VIEWS = {
  unread: {
    label: 'Not looked at',
    lead: 'Changes that evidence made and nobody has looked at. They hold already: keep, overrule or lock.',
    days: 3650,
  },
  week: { label: 'This week', lead: 'What changed in the last seven days, and why.', days: 7 },
  month: { label: 'Four weeks', lead: 'What changed in the last four weeks, and why.', days: 28 },
} as const;
type View = keyof typeof VIEWS;
/** Those not looked at stand in groups, so more of them; of the others a page. */
const MOST = { unread: 150, week: 50, month: 50 };

export default definePage('read:rules', async ({ db, now, actor, query }) => {
  const [unread, shop, policy] = await Promise.all([unreadChanges(db), shopSettings(db), policyOnFile(db)]);
  const asked = query.show as View | undefined;
  const view: View = asked && asked in VIEWS ? asked : unread > 0 ? 'unread' : 'week';
  const { lead, days } = VIEWS[view];
  const most = MOST[view];
  const after = isId(query.after) ? query.after : undefined;
  const found = await ruleChanges(db, {
    since: new Date(now.getTime() - days * DAY),
    unreadOnly: view === 'unread',
    take: most + 1,
    after,
  });
  const changes = found.slice(0, most);
  const next = found.length > most ? changes.at(-1)?.id : undefined;
  const may = can(actor, 'overrule:rules');
  return (
    <>
      <PageHead title="Rule changes" lead={lead} actions={may ? <ButtonLink href="/rules/what-if">What if</ButtonLink> : null} />
      <AssumedCosts
        said={shop !== null && cleaningPrices(shop) !== null}
        cleaningCost={policy.cleaningCost}
        failureCost={policy.failureCost}
        maySet={can(actor, 'manage:shop')}
      />
      <nav aria-label="Which changes" className="mb-5 flex flex-wrap gap-1">
        {keysOf(VIEWS).map((v) => (
          <Link
            key={v}
            href={`/rules?show=${v}`}
            aria-current={v === view ? 'page' : undefined}
            className={`rounded-md border px-3 py-2 font-bold no-underline ${v === view ? 'border-cold bg-cold-wash text-cold' : 'border-line bg-sheet text-ink hover:border-edge'}`}
          >
            {VIEWS[v].label}
            {v === 'unread' ? ` (${unread})` : ''}
          </Link>
        ))}
      </nav>
      {changes.length === 0 ? (
        <Empty action={view === 'unread' ? <ButtonLink href="/rules?show=month">Last four weeks</ButtonLink> : null}>
          {view === 'unread'
            ? 'Nothing waits for you. When a visit is closed, each rule that its findings move appears here with its reason.'
            : 'No rule changed in this time.'}
        </Empty>
      ) : (
        <div className="flex flex-col gap-5">
          {view === 'unread' ? <ChangeGroups changes={changes} mayDecide={may} /> : null}
          {(view === 'unread' ? [] : byDay(changes)).map(([day, list]) => (
            <Sheet key={day} title={day}>
              <ul className="flex flex-col">
                {list.map((c) => (
                  <ChangeRow key={c.id} change={c} mayDecide={may} />
                ))}
              </ul>
            </Sheet>
          ))}
          <Turn view={view} next={next} back={after !== undefined} />
        </div>
      )}
      <ChangeHistory changes={await changesOf(db, 'RuleChange', '')} timeZone={zoneOf(shop)} />
    </>
  );
});

const zoneOf = (shop: { timeZone: string } | null) => shop?.timeZone ?? 'UTC';

/** On to older ones, and back to the newest. Those not looked at grow fewer by themselves. */
function Turn({ view, next, back }: { view: View; next: string | undefined; back: boolean }) {
  if (view === 'unread') return next ? <p className="text-soft">Only the newest {MOST.unread} are shown.</p> : null;
  if (!next && !back) return null;
  return (
    <p className="flex gap-2">
      {back ? <ButtonLink href={`/rules?show=${view}`}>Back to the newest</ButtonLink> : null}
      {next ? <ButtonLink href={`/rules?show=${view}&after=${next}`}>Older ones</ButtonLink> : null}
    </p>
  );
}

function byDay(changes: RuleChangeRow[]): [string, RuleChangeRow[]][] {
  const days = new Map<string, RuleChangeRow[]>();
  for (const c of changes) {
    const day = dayIn(c.at, c.kitchen.timeZone);
    days.set(day, [...(days.get(day) ?? []), c]);
  }
  return [...days];
}
