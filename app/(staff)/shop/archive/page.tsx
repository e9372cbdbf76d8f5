import type { Metadata } from 'next';
import { changesOfEach } from '@/lib/features/audit/reads/audit';
import { archives } from '@/lib/features/archive/reads/archives';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { ArchiveRow } from './_components/archive-row';
import { MakeForm } from './_components/make-form';

export const metadata: Metadata = { title: 'Everything as one file' };

export default definePage('export:everything', async ({ db, now }) => {
  const [list, shop] = [await archives(db, now), await shopSettings(db)];
  const changes = await changesOfEach(
    db,
    'ArchiveRun',
    list.map((a) => a.id),
  );
  const zone = shop?.timeZone ?? 'UTC';
  const busy = list.some((a) => a.status === 'queued' || a.status === 'running');
  return (
    <>
      <PageHead
        title="Everything as one file"
        lead="The shop’s whole record, to keep or to take elsewhere: each table for a spreadsheet and as JSON, each picture, and a page that says what every column means."
      />
      <div className="grid items-start gap-6 xl:grid-cols-[minmax(0,1fr)_24rem]">
        <Sheet title="Archives">
          {busy ? null : <MakeForm />}
          {list.length > 0 ? (
            <ul className="mt-2">
              {list.map((a) => (
                <ArchiveRow key={a.id} archive={a} timeZone={zone}>
                  <ChangeHistory changes={changes.get(a.id) ?? []} timeZone={zone} />
                </ArchiveRow>
              ))}
            </ul>
          ) : (
            <p className="mt-4 text-soft">It is made while the shop goes on working, and can be fetched here for three days.</p>
          )}
        </Sheet>
        <Sheet title="Who changed what">
          <p className="mb-3 text-soft">
            Every change to a record since the shop began: who, when, from what to what. Nobody can alter or drop a line of it.
          </p>
          <ButtonLink href="/shop/changes">What was changed</ButtonLink>
        </Sheet>
        <Sheet title="What is not in it">
          <p className="text-soft">
            What lets somebody in: passwords, second steps, sessions, and the addresses sent to customers. In a shop made from the archive
            each owner chooses a new password. Keep the file as you keep the books: customers’ names and addresses are in it.
          </p>
          <p className="mt-3 text-soft">
            <code>npm run restore -- FILE</code> makes a shop from it where there is none. For a nightly copy there is{' '}
            <code>npm run backup</code>, which keeps passwords and can be encrypted.
          </p>
        </Sheet>
      </div>
    </>
  );
});
