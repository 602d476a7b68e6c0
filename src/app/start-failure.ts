/** Says why there is no program on the page, where there is nothing else to say it. */
export function showStartFailure(root: HTMLElement, reason: string): void {
  const title = document.createElement('p');
  title.className = 'starting';
  title.textContent = 'Legroom could not start.';
  const why = document.createElement('p');
  why.className = 'stopped';
  why.textContent = `Reload the page; if it stays like this, another or a newer browser may help. Kept work is untouched. (${reason})`;
  root.replaceChildren(title, why);
  root.setAttribute('role', 'alert');
}
