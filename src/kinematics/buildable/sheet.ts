/** By how many mm a round plate fits a rectangular sheet or bed; below zero: by how many it is too large. */
export const leastSheetRoom = (diameter: number, [width, depth]: readonly [number, number]): number =>
  Math.min(width, depth) - diameter;
