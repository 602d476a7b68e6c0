/** How well the six legs hold the platform still. */
export const VERDICT_WORDS = [
  'firm',
  'soft',
  'nearly singular',
  'singular at this pose',
  'singular at every pose',
] as const;

export type VerdictWord = (typeof VERDICT_WORDS)[number];
