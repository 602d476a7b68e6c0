/** The limits that stop a leg, in the order in which lists name them. */
export const LIMIT_NAMES = ['legTooShort', 'legTooLong', 'baseJoint', 'platformJoint'] as const;

export type LimitName = (typeof LIMIT_NAMES)[number];

/** Plain words for a limit, as the screen and the command line show it. */
export const LIMIT_WORDS: Readonly<Record<LimitName, string>> = {
  legTooShort: 'leg too short',
  legTooLong: 'leg too long',
  baseJoint: 'base joint',
  platformJoint: 'platform joint',
};

/**
 * A pose that sits exactly on a limit counts as within it. Lengths and tilts carry a few rounding errors
 * (some 1e-15 of the layout's size, or of a radian); this leaves three orders of room and is far below any
 * part's tolerance. Relative to the layout's size for lengths, absolute for angles [rad].
 */
export const LIMIT_SLACK = 1e-12;
