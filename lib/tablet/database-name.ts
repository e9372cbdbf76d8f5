/** Of the layout of the tablet's database; see openDatabase for what changed. */
export const DATABASE_VERSION = 5;
/** One database a person: a tablet that is handed on never mixes two people's work. */
export const databaseName = (userId: string) => `rimebook-${userId}`;
