/** How a column of a table of layouts is named and written, on screen and in tables. */
export interface ColumnTerms {
  /** Full name, as it stands in lists: "Reach over the tilt range". */
  readonly name: string;
  /** As it stands on an axis: "Tilt reach". */
  readonly short: string;
  /** In a running sentence: "firmness at home". */
  readonly inWords: string;
  readonly unit: string;
  /** Shown number = inside number times this. */
  readonly scale: number;
  /** Name in exported tables and files, unit included. */
  readonly header: string;
}
