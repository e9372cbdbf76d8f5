import 'server-only';
import { manyLines, oneLine } from '../../../core/wording/plain-text';
import ical, { ICalCalendarMethod, ICalEventStatus } from 'ical-generator';

export type InvitedVisit = {
  id: string;
  sequence: number;
  startsAt: Date;
  endsAt: Date;
  createdAt: Date;
  summary: string;
  description: string;
  location: string;
  cancelled: boolean;
};

type Person = { name: string; email: string };

const PRODUCT = { company: 'rimebook', product: 'rimebook', language: 'EN' };
/** The same visit keeps its identity in every calendar it reaches. */
const visitUid = (id: string) => `visit-${id}@rimebook`;

/** The package writes a calendar's name as it is: TEXT is escaped by RFC 5545 3.3.11. */
const escaped = (text: string) => text.replace(/[\\;,]/g, '\\$&');
/** A parameter's value can hold no quotation mark (RFC 5545 3.2). */
const named = ({ name, email }: Person) => ({ name: oneLine(name).replaceAll('"', '’’').trim() || email, email });

const event = (v: InvitedVisit, now: Date) => ({
  id: visitUid(v.id),
  sequence: v.sequence,
  start: v.startsAt,
  end: v.endsAt,
  stamp: now,
  created: v.createdAt,
  summary: oneLine(v.summary),
  description: manyLines(v.description),
  location: oneLine(v.location),
  status: v.cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
});

/** An invitation or its cancellation (RFC 5546 REQUEST, CANCEL), in UTC so that no clock change can move it. */
export function invitation(
  v: InvitedVisit,
  people: { organizer: Person; attendee: Person },
  now: Date,
): { method: 'REQUEST' | 'CANCEL'; text: string } {
  const method = v.cancelled ? ICalCalendarMethod.CANCEL : ICalCalendarMethod.REQUEST;
  const calendar = ical({ prodId: PRODUCT, method });
  calendar.createEvent({ ...event(v, now), organizer: named(people.organizer), attendees: [{ ...named(people.attendee), rsvp: true }] });
  return { method, text: calendar.toString() };
}

/** A calendar to subscribe to (RFC 7986 NAME and REFRESH-INTERVAL). */
export function feed(name: string, visits: InvitedVisit[], now: Date): string {
  const calendar = ical({ prodId: PRODUCT, name: escaped(oneLine(name)), ttl: 3600, method: ICalCalendarMethod.PUBLISH });
  for (const v of visits) calendar.createEvent(event(v, now));
  return calendar.toString();
}
