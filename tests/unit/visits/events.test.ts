import { expect, it } from 'vitest';
import { VISIT_EVENT_LABEL } from '@/lib/core/visits/events';
import { enumOf } from '../../support/prisma-schema';

it('everything that can happen to a visit has its words', () => {
  // In the order of a visit's life here, in the order of the migrations there.
  expect(Object.keys(VISIT_EVENT_LABEL).toSorted()).toEqual(enumOf('VisitEventKind').toSorted());
});
