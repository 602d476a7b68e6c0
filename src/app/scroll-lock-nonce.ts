/**
 * Lets the one style element through that the dialogs' library writes while it holds the page still. It is no secret:
 * whoever could write a style element with it already runs scripts. It keeps style attributes and style elements in
 * markup refused.
 */
export const SCROLL_LOCK_NONCE = 'legroom-scroll-lock';
