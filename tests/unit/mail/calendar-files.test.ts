import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { feed, invitation, type InvitedVisit } from '@/lib/features/mail/verbs/invitation';

const now = new Date('2026-11-25T15:00:00Z');
const visit = (text: string): InvitedVisit => ({
  id: '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a10',
  sequence: 2,
  startsAt: new Date('2026-12-01T15:00:00Z'),
  endsAt: new Date('2026-12-01T16:00:00Z'),
  createdAt: now,
  summary: text,
  description: text,
  location: text,
  cancelled: false,
});
/** Words that tried to write lines of their own, and any others. */
const anything = fc.oneof(
  fc.constantFrom('Grill\r\nATTENDEE:mailto:x@y.example\r\nX', 'A;B,C\\\\n"D"', 'END:VCALENDAR\nBEGIN:VCALENDAR', 'Zoë “No. 4”, 東京: 🧊'),
  fc.string({ unit: 'binary', maxLength: 200 }),
);
const parsed = (text: string) => new ICAL.Component(ICAL.parse(text) as never);
const names = (c: ICAL.Component) =>
  c
    .getAllProperties()
    .map((p) => p.name)
    .sort();

// ical.js is another's reading of RFC 5545: what it finds must be what we meant, and nothing besides.
describe('calendar files, whatever a kitchen or a person is called', () => {
  it('hold the lines that we wrote and no others', () => {
    fc.assert(
      fc.property(anything, (text) => {
        const calendar = parsed(feed(text || 'x', [visit(text)], now));
        expect(names(calendar)).toEqual(['method', 'name', 'prodid', 'refresh-interval', 'version', 'x-published-ttl', 'x-wr-calname']);
        expect(calendar.getAllSubcomponents().map((c) => c.name)).toEqual(['vevent']);
        const invited = invitation(
          visit(text),
          { organizer: { name: text, email: 'shop@a.example' }, attendee: { name: text, email: 'chef@b.example' } },
          now,
        );
        const event = parsed(invited.text).getFirstSubcomponent('vevent')!;
        expect(event.getAllProperties('attendee').map((p) => p.getFirstValue())).toEqual(['MAILTO:chef@b.example']);
        expect(parsed(invited.text).getAllSubcomponents()).toHaveLength(1);
      }),
      { numRuns: 500 },
    );
  });

  it('give back the names that were put in', () => {
    const text = 'Zoë’s; Grill, “No. 4” \\ 東京 🧊';
    const calendar = parsed(feed(text, [visit(text)], now));
    // ical.js knows neither property (RFC 7986 is younger), so it gives TEXT back as it was written: escaped.
    for (const property of ['name', 'x-wr-calname']) expect(calendar.getFirstPropertyValue(property)).toBe(text.replace(/[\\;,]/g, '\\$&'));
    const event = calendar.getFirstSubcomponent('vevent')!;
    expect([event.getFirstPropertyValue('summary'), event.getFirstPropertyValue('location')]).toEqual([text, text]);
  });
});
