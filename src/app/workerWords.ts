/** What the page says to the service worker. */

/** The maker wants the new version. */
export const TAKE_OVER = 'take over';
/** The page has been opened. */
export const OPENED = 'opened';
