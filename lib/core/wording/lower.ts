/** "the drain runs slowly." of "The drain runs slowly.": a sentence within another. */
export const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
