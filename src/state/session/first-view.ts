/** A page that has not drawn anything by then goes on loading all the same [ms]. */
const LONGEST_WAIT = 4000;

let shown: () => void = () => undefined;

/** Settles when the platform is drawn for the first time, or when that does not come. */
export const firstView = new Promise<void>((settle) => {
  shown = settle;
  setTimeout(settle, LONGEST_WAIT);
});

/** Says that there is a drawing, or that there will be none. */
export const sayFirstView = (): void => shown();
