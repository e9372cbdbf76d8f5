import type { SessionLine } from './session-list';

type OnFile = { id: string; userAgent: string; createdAt: Date; lastSeenAt: Date };

/** Sessions as the list shows them. @param mine the one that asks */
export const sessionLines = (sessions: readonly OnFile[], mine: string): SessionLine[] =>
  sessions.map(({ id, userAgent, createdAt, lastSeenAt }) => ({
    id,
    userAgent,
    createdAt: createdAt.getTime(),
    lastSeenAt: lastSeenAt.getTime(),
    mine: id === mine,
  }));
