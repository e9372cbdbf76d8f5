/** How a button looks, for buttons and links alike. */
export const LOOK = {
  primary: 'bg-cold text-on-cold border-cold hover:brightness-110',
  plain: 'bg-sheet text-ink border-edge hover:border-ink',
  quiet: 'bg-transparent text-cold border-transparent underline hover:border-edge',
  danger: 'bg-sheet text-alarm border-alarm hover:bg-alarm-wash',
} as const;
export const SIZE = { desk: 'min-h-9 px-3 py-1.5 text-[0.95rem]', touch: 'min-h-[3.75rem] px-5 py-3 text-lg' } as const;

export type Looks = { look?: keyof typeof LOOK; size?: keyof typeof SIZE };
export const BUTTON =
  'inline-flex items-center justify-center gap-2 rounded-md border font-bold no-underline transition-colors disabled:opacity-55';
