/**
 * A short name for a text: FNV-1a (Fowler, Noll, Vo) twice with different starts, 64 bits in all. Texts that may differ under one
 * name are told apart by the text itself.
 */
export const shortHash = (text: string): string =>
  [0x811c9dc5, 0x9747b28c].map((start) => fnv(text, start).toString(36)).join('-');

function fnv(text: string, start: number): number {
  let hash = start;
  for (let n = 0; n < text.length; n++) hash = Math.imul(hash ^ text.charCodeAt(n), 0x01000193);
  return hash >>> 0;
}
