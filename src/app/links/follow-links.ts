import { holdsDesign } from '../../document/link-fragment.ts';
import { reasonOf } from '../../jobs/outcome.ts';
import { notify } from '../../state/session/notices-store.ts';
import type { LinkOpening } from './link-opening.ts';

/** Opens the design in the page's address, now and whenever another link is followed on the open page. */
export function followLinks(opening: LinkOpening): () => void {
  const read = () => takeFromAddress(opening);
  read();
  window.addEventListener('hashchange', read);
  return () => window.removeEventListener('hashchange', read);
}

/** Takes the design out of the address, so that a reload goes on with what was made of it instead of opening it again. */
function takeFromAddress(opening: LinkOpening): void {
  const { hash, pathname, search } = window.location;
  if (!holdsDesign(hash)) return;
  window.history.replaceState(window.history.state, '', pathname + search);
  // few visits begin with a link, so what unpacks it is fetched only then
  void import('./link-opening.ts').then(
    ({ openFragment }) => openFragment(hash, opening),
    (thrown: unknown) => notify(opening.notices, `The link was not opened: ${reasonOf(thrown)}`, { tone: 'warning' }),
  );
}
