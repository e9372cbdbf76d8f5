/** From the press until the browser asks the page whether it may go. */
const SOON_MS = 2000;
let until = 0;

/** The page is about to be left by a step of the round itself: everything is kept, so nobody is asked. */
export const leaveOnPurpose = (): void => void (until = Date.now() + SOON_MS);

export const leavesOnPurpose = (): boolean => Date.now() < until;
