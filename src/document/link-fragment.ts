/** How a fragment that holds a design begins, without its `#`. */
export const FRAGMENT_KEY = 'design=';

/** Whether a fragment, with or without its `#`, claims to hold a design. */
export const holdsDesign = (fragment: string): boolean => fragment.replace(/^#/, '').startsWith(FRAGMENT_KEY);
