import { useEffect, useState } from 'react';
import { reachFromHome } from '../../reach/columns/reach-measure.ts';
import { designStore, fieldStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { magnificationText, sentence } from '../../words/firmness.ts';
import { figure } from '../../words/numbers.ts';
import { bindingWords, cm3Text } from '../../words/reach.ts';
import { judgementNow } from '../pose-binding.ts';
import { summaryIsStale } from '../reach-binding.ts';
import { shownUsable } from '../usable-binding.ts';
import { brokenNow } from './use-broken.ts';

/** The verdict is read out once it has stood for this long [ms], not at every step of a drag. */
const REST = 1200;

const STORES = [designStore, sessionStore, resultsStore, fieldStore] as const;

/** The strip in a few sentences for screen readers, politely and only when it has settled; looked at twice in that time. */
export function SpokenSummary() {
  const [spoken, setSpoken] = useState('');
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    let seen = '';
    const look = () => {
      timer = null;
      const words = wordsNow();
      if (words === seen) setSpoken(words);
      else wait();
      seen = words;
    };
    const wait = () => {
      timer ??= setTimeout(look, REST / 2);
    };
    wait();
    const stops = STORES.map((store) => store.subscribe(wait));
    return () => {
      if (timer !== null) clearTimeout(timer);
      for (const stop of stops) stop();
    };
  }, []);
  return (
    <p className="spoken" role="status" aria-live="polite">
      {spoken}
    </p>
  );
}

function wordsNow(): string {
  const { independence } = judgementNow();
  const value = summaryIsStale() ? null : resultsStore.getState().summary.finished?.value;
  const reach = !value
    ? ''
    : value.empty
      ? 'Nothing is reachable. '
      : `Reach ${cm3Text(reachFromHome(value))}, ${bindingWords(value.boundary)}. `;
  const firmness = `${sentence(independence.verdict.word)}, firmness ${figure(independence.firmness)}, magnification ${magnificationText(independence.magnification)}. `;
  const broken = brokenNow();
  const limits = broken.length === 0 ? 'No limits broken.' : `Broken: ${broken.join('; ')}.`;
  const usable = shownUsable();
  const kept =
    usable.value && !usable.stale && usable.value.floors.length > 0
      ? `Usable under the floors: ${cm3Text(usable.value.usable)}. `
      : '';
  return reach + kept + firmness + limits;
}
