'use client';

import Link from 'next/link';
import { CHANGE_ANSWERS, CHANGE_ANSWER_LABEL, changeSigns, type FoundChange } from '@/lib/core/intervals/change-question';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, Select } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { Sheet } from '@/app/_ui/page/sheet';
import { sayWhatChanged } from '../../kitchens/actions';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type Question = FoundChange & { id: string; kitchenId: string; kitchen: string; customer: string };

/** Kitchens whose coils came out other than expected: what changed there is asked of whoever plans the work. */
export function ChangeQuestions({ questions }: { questions: Question[] }) {
  if (questions.length === 0) return null;
  return (
    <Sheet title="Has something changed?" className="mb-6">
      <ul>
        {questions.map((q) => (
          <Ask key={q.id} q={q} />
        ))}
      </ul>
    </Sheet>
  );
}

function Ask({ q }: { q: Question }) {
  const { form, error, on, busy } = useActionForm(sayWhatChanged);
  const place = kitchenInFull(q);
  return (
    <li className="flex flex-wrap items-end justify-between gap-x-6 gap-y-2 border-b border-line py-2">
      <span className="min-w-0 flex-1 basis-72">
        <Link href={`/kitchens/${q.kitchenId}`} className="font-bold">
          {place}
        </Link>
        <span className="block">{changeSigns(q)}</span>
        <span className="block text-sm text-soft">
          Ask the kitchen. If something changed, every coil there is expected to foul that way from then on.
        </span>
      </span>
      <ActionForm {...form} className="flex flex-wrap items-end gap-2">
        <FormErrors errors={error('')} />
        <Hidden of={{ id: q.id }} />
        <Select
          label={`What changed at ${place}`}
          {...on('answer')}
          defaultValue=""
          options={[{ value: '', label: 'Choose' }, ...CHANGE_ANSWERS.map((value) => ({ value, label: CHANGE_ANSWER_LABEL[value] }))]}
        />
        <Button type="submit" disabled={busy}>
          Keep it
        </Button>
      </ActionForm>
    </li>
  );
}
