import { ButtonLink } from '@/app/_ui/buttons/button';
import { Progress } from '@/app/_ui/feedback/progress';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Wins, type Summary } from './ready';
import { TakeBack } from './take-back';

type Run = { id: string; rows: number; doneRows: number; made: unknown };

export function Running({ run }: { run: Run }) {
  return (
    <Sheet>
      <Progress address={`/customers/import/${run.id}/progress`} title="Putting units on file" rows={run.rows} doneRows={run.doneRows} />
    </Sheet>
  );
}

/** On file; what it made can be taken back as long as the run still knows it. */
export function Done({ run, summary }: { run: Run; summary: Summary }) {
  return (
    <Sheet>
      <State shape="done" tone="cold">
        Done
      </State>
      <Wins s={summary} />
      <p className="mt-3 flex gap-2">
        <ButtonLink href="/customers" look="primary">
          See the kitchens
        </ButtonLink>
        <ButtonLink href="/due">What is due</ButtonLink>
      </p>
      {run.made ? (
        <div className="mt-4 border-t border-line pt-4">
          <p className="mb-2 text-soft">While nothing is booked on it or filled in, all of it can be taken back in one go.</p>
          <TakeBack runId={run.id} />
        </div>
      ) : null}
    </Sheet>
  );
}

export function Undone() {
  return (
    <Sheet>
      <State shape="off" tone="soft">
        Taken back
      </State>
      <p>What this import had put on file is off it again.</p>
    </Sheet>
  );
}

/** @param bad whether the check found something to mend, so that it did not merely break off */
export function Failed({ bad }: { bad: boolean }) {
  return (
    <Sheet>
      <State shape="off" tone="alarm">
        Nothing was written
      </State>
      <p>
        {bad
          ? 'Something on file changed since the check; see below.'
          : 'The import was cut off before it ended. The fleet is as it was before. Check the file again and run it once more.'}
      </p>
    </Sheet>
  );
}
