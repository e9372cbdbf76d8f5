import 'server-only';
import type { EntryKind } from '../../../core/tablet';
import type { Handler } from './context';
import { followUpAdd } from './kinds/follow-up-add';
import { findingSet } from './kinds/finding-set';
import { jobOutcome } from './kinds/job-outcome';
import { readingAdd } from './kinds/reading-add';
import { sealedStep } from './kinds/sealed-step';
import { entryStrike, eventAdd, foodWarningAdd, partUse, photoAttach, signatureSet } from './kinds/small-entries';
import { taskDone, taskNotDone } from './kinds/task-outcome';
import { taskTake } from './kinds/task-take';
import { unitAdd } from './kinds/unit-add';
import { unitOutcome } from './kinds/unit-outcome';
import { visitClose } from './kinds/visit-close';
import { visitStart } from './kinds/visit-start';

export const HANDLERS: { [K in EntryKind]: Handler<K> } = {
  'visit.start': visitStart,
  'finding.set': findingSet,
  'reading.add': readingAdd,
  'unit.outcome': unitOutcome,
  'unit.add': unitAdd,
  'task.take': taskTake,
  'task.done': taskDone,
  'task.not_done': taskNotDone,
  'photo.attach': photoAttach,
  'signature.set': signatureSet,
  'part.use': partUse,
  'follow_up.add': followUpAdd,
  'job.outcome': jobOutcome,
  'food_warning.add': foodWarningAdd,
  'event.add': eventAdd,
  'sealed.step': sealedStep,
  'entry.strike': entryStrike,
  'visit.close': visitClose,
};
