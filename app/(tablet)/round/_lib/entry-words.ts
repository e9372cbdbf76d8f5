import { timeAt } from '@/lib/core/calendar/at-offset';
import { PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { ASPECT_LABEL } from '@/lib/core/findings/grades';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import {
  FIELD_INFO,
  ownText,
  READING_FIELDS,
  UNIT_EVENT_LABEL,
  upgradedEntry,
  URGENCY_LABEL,
  type Operation,
  type OwnUnits,
  type Payloads,
  type VisitOnFile,
} from '@/lib/core/tablet';
import { gradeWords } from './grade-words';

/** The visit is not there any more where the tablet has let go of it. */
type About = { visit?: Pick<VisitOnFile, 'kitchen' | 'tasks'>; unitName: (unitId: string) => string; me: OwnUnits };

/** What an entry says, in words enough to write it again. */
export function entryWords(op: Operation, about: About): string {
  try {
    return words(upgradedEntry(op), about);
  } catch {
    // The office refuses what cannot be read; the screen is not to fall over it.
    return '';
  }
}

const STRUCK_WORDS = { part: 'a part', follow_up: 'a follow-up', event: 'an event', photo: 'a photo' } as const;
const sentence = (...parts: string[]) => parts.filter(Boolean).join('. ');

function words(op: Operation, { visit, unitName, me }: About): string {
  const at = (iso: string) => timeAt(Date.parse(iso), visit?.kitchen.utcOffsetMinutes ?? -new Date(iso).getTimezoneOffset());
  const of = (unitId: string | null, what: string) => (unitId ? `${unitName(unitId)}: ${what}` : what);
  const task = (taskId: string) => {
    const t = visit?.tasks.find((t) => t.taskId === taskId);
    return t ? of(t.unitId, t.label.toLowerCase()) : 'a task that is not on this tablet';
  };
  switch (op.kind) {
    case 'visit.start':
      return `arrived ${at(op.payload.arrivedAt)}`;
    case 'visit.close':
      return `left ${at(op.payload.leftAt)}`;
    case 'finding.set': {
      const { unitId, aspect, phase, notLookedWhy, note } = op.payload;
      const what = `${ASPECT_LABEL[aspect].toLowerCase()}${phase === 'left' ? ' as left' : ''} ${gradeWords(op.payload)}`;
      return sentence(of(unitId, what), notLookedWhy, note);
    }
    case 'reading.add':
      return readingWords(op.payload, unitName, me);
    case 'unit.outcome': {
      const { unitId, outcome, reason } = op.payload;
      return sentence(of(unitId, outcome === 'seen' ? 'reached' : outcome === 'gone' ? 'gone' : 'could not reach'), reason);
    }
    case 'unit.add': {
      const { name, kind, placement, refrigerant, make, model, serial, notes = '' } = op.payload;
      const what = [UNIT_KIND_LABEL[kind], PLACEMENT_LABEL[placement].toLowerCase(), refrigerantLabel(refrigerant)].join(', ');
      return sentence(`${name}: ${what}`, [make, model, serial].filter(Boolean).join(', '), notes);
    }
    case 'task.done':
      return task(op.payload.taskId);
    case 'task.not_done':
      return sentence(task(op.payload.taskId), op.payload.reason);
    case 'photo.attach': {
      const { unitId, aspect, phase } = op.payload;
      return of(unitId, `${aspect ? ASPECT_LABEL[aspect].toLowerCase() : 'whole unit'}, ${phase} cleaning`);
    }
    case 'signature.set':
      return op.payload.nobodyThere ? 'nobody there' : `signed by ${op.payload.signedBy}`;
    case 'part.use':
      return of(op.payload.unitId, `${op.payload.quantity} × ${op.payload.what}`);
    case 'follow_up.add': {
      const { unitId, what, urgency, note } = op.payload;
      return sentence(of(unitId, `${what}, ${URGENCY_LABEL[urgency].toLowerCase()}`), note);
    }
    case 'food_warning.add': {
      const { unitId, boxK, toldTo, toldAt, note } = op.payload;
      return sentence(of(unitId, `${ownText('boxK', boxK, me)}, told to ${toldTo} at ${at(toldAt)}`), note);
    }
    case 'event.add': {
      const { unitId, kind, note } = op.payload;
      return sentence(of(unitId, `${UNIT_EVENT_LABEL[kind].toLowerCase()}, ${at(op.payload.at)}`), note);
    }
    case 'entry.strike':
      return sentence(STRUCK_WORDS[op.payload.what], op.payload.why);
  }
}

/** Each number as it was typed, in the unit it was typed in. */
function readingWords(p: Payloads['reading.add'], unitName: About['unitName'], me: OwnUnits): string {
  const typed = READING_FIELDS.flatMap((f) => {
    const [entered, si] = [p.entered[f], p.values[f]];
    const text = entered ? `${entered.text.replace('-', '−')} ${entered.unit}` : si === undefined ? '' : ownText(f, si, me);
    return text ? [`${FIELD_INFO[f].label.toLowerCase()} ${text}`] : [];
  });
  const answers = p.questioned.map((q) => `${q.question} ${q.answer}`);
  return sentence(`${unitName(p.unitId)}, ${p.phase} cleaning: ${typed.join(', ')}`, answers.join(' '));
}
