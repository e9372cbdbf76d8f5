import 'server-only';
import { rolesWith } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';
import type { LockedVisit } from './context';

type Row = LockedVisit & { technician: string; given: boolean; office: boolean };
type UnitRow = { id: string; name: string; kitchenId: string; archivedAt: Date | null };

/** Visits and units that a batch is about: each visit's row is locked once and read once, until an entry changes it. */
export class VisitDesk {
  private readonly visits = new Map<string, Row | null>();
  private readonly units = new Map<string, UnitRow | null>();

  constructor(
    private readonly db: Tx,
    private readonly userId: string,
  ) {}

  async exists(visitId: string): Promise<boolean> {
    return (await this.row(visitId)) !== null;
  }

  /**
   * The visit of an entry. Who may write on it: its technician, the office, and whoever once had it on a tablet of theirs.
   * @throws AppError not_found | not_allowed
   */
  async visit(visitId: string): Promise<{ visit: LockedVisit; notes: string[] }> {
    const row = await this.row(visitId);
    if (!row) throw new AppError('not_found', 'That visit is not on file.');
    const own = row.technicianId === this.userId;
    if (!own && !row.given && !row.office)
      throw new AppError('not_allowed', `That visit is ${row.technician}’s and was never on this tablet.`);
    const notes: string[] = [];
    if (!own) notes.push(`The visit is ${row.technician}’s now.`);
    if (row.status === 'cancelled') notes.push('The office had cancelled the visit.');
    return { visit: row, notes };
  }

  /** An entry changed the visit: it is read again for the next one. */
  changed(visitId: string): void {
    this.visits.delete(visitId);
  }

  private async row(visitId: string): Promise<Row | null> {
    const held = this.visits.get(visitId);
    if (held !== undefined) return held;
    const [row = null] = await this.db.$queryRaw<Row[]>`
      SELECT v.id, v."kitchenId", v."technicianId", v.status::text AS status, k."timeZone", v."arrivedAt", v."leftAt", v."signedAt", v."signedOn", v."nobodyThere", t.name AS technician,
        EXISTS (SELECT 1 FROM "DeviceVisit" g JOIN "Device" d ON d.id = g."deviceId" WHERE d."userId" = ${this.userId}::uuid AND g."visitId" = v.id) AS given,
        EXISTS (SELECT 1 FROM "User" u WHERE u.id = ${this.userId}::uuid AND u.role::text = ANY(${rolesWith('fill:visit')})) AS office
      FROM "Visit" v JOIN "Kitchen" k ON k.id = v."kitchenId" JOIN "User" t ON t.id = v."technicianId"
      WHERE v.id = ${visitId}::uuid FOR UPDATE OF v`;
    this.visits.set(visitId, row);
    return row;
  }

  async unit(unitId: string): Promise<UnitRow | null> {
    const held = this.units.get(unitId);
    if (held) return held;
    const unit = await this.db.unit.findUnique({
      where: { id: unitId },
      select: { id: true, name: true, kitchenId: true, archivedAt: true },
    });
    this.units.set(unitId, unit);
    return unit;
  }
}
