/** A colour map as a CSS gradient from left to right, a stop every twentieth. */
export const colourBar = (map: (share: number) => string): string =>
  `linear-gradient(to right, ${Array.from({ length: 21 }, (_, i) => map(i / 20)).join(', ')})`;
