/** Reversed polynomial of CRC-32 as ISO/IEC/IEEE 8802-3 (Ethernet) and zip files use it. */
const POLYNOMIAL = 0xedb88320;

/** CRC-32 of bytes, 0 to 2^32 - 1, one bit at a time: for a few kilobytes a table would not pay. */
export function crc32(bytes: Uint8Array): number {
  let remainder = 0xffffffff;
  for (const byte of bytes) {
    remainder ^= byte;
    for (let bit = 0; bit < 8; bit++) remainder = (remainder >>> 1) ^ (remainder & 1 ? POLYNOMIAL : 0);
  }
  return (remainder ^ 0xffffffff) >>> 0;
}
