const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;
/** Whether a piece of an address can be an id at all: the database throws at anything else. */
export const isId = (text: string | undefined): text is string => text !== undefined && UUID.test(text);
