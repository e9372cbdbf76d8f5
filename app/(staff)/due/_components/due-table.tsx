'use client';

import { useState } from 'react';
import type { DueKitchenLine } from './types';
import { KitchenRows } from './kitchen-rows';

/** The list as one table, a kitchen after the other. Tasks of one kitchen are chosen together. */
export function DueTable({ kitchens, limit }: { kitchens: DueKitchenLine[]; limit: number }) {
  const [chosen, setChosen] = useState<{ kitchenId: string; ids: ReadonlySet<string> }>({ kitchenId: '', ids: new Set() });

  function choose(kitchenId: string, ids: readonly string[], on: boolean) {
    setChosen((now) => {
      // A visit is to one kitchen: choosing in another begins anew.
      const next = new Set(now.kitchenId === kitchenId ? now.ids : []);
      for (const id of ids)
        if (on) next.add(id);
        else next.delete(id);
      return { kitchenId, ids: next };
    });
  }

  return (
    <div className="overflow-x-auto" role="region" aria-label="Due tasks by kitchen" tabIndex={0}>
      <table className="w-full text-left">
        <thead className="max-md:sr-only">
          <tr className="text-sm">
            {['Choose', 'Unit', 'Task', 'Placement', 'How often', 'Last done', 'Due'].map((h) => (
              <th key={h} scope="col" className="border-b-2 border-ink/70 px-2 py-1.5 font-bold first:w-20">
                {h}
              </th>
            ))}
          </tr>
        </thead>
        {kitchens.map((k) => (
          <KitchenRows
            key={k.id}
            kitchen={k}
            limit={limit}
            chosen={chosen.kitchenId === k.id ? chosen.ids : NONE}
            choose={(ids, on) => choose(k.id, ids, on)}
          />
        ))}
      </table>
    </div>
  );
}

const NONE: ReadonlySet<string> = new Set();
