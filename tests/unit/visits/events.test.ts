import { expect, it } from 'vitest';
import { VISIT_EVENT_LABEL } from '@/lib/core/visits/events';
import { enumOf } from '../../support/prisma-schema';

it('everything that can happen to a visit has its words', () => {
  expect(Object.keys(VISIT_EVENT_LABEL)).toEqual(enumOf('VisitEventKind'));
});
