import 'server-only';
import type { EntryKind } from '../../../core/tablet';
import type { ApplyContext } from './context';

/** A batch that was being taken in while the round was told. */
const SLACK_MS = 120_000;

/**
 * Whether another tablet's entry of these kinds came to the office after the refresh that this entry is based on, so
 * that whoever made it cannot have known. Otherwise a change was meant, and there is nothing to ask.
 */
export async function cameMeanwhile(
  { db, visit, deviceId, basedOn }: ApplyContext,
  kinds: readonly EntryKind[],
  about?: { taskId: string } | { unitId: string } | { jobId: string },
): Promise<boolean> {
  const [of] = Object.entries(about ?? {});
  const other = await db.entry.findFirst({
    where: {
      visitId: visit.id,
      kind: { in: [...kinds] },
      deviceId: { not: deviceId },
      receivedAt: { gt: new Date(basedOn.getTime() - SLACK_MS) },
      ...(of ? { payload: { path: [of[0]], equals: of[1] } } : {}),
    },
    select: { id: true },
  });
  return other !== null;
}
