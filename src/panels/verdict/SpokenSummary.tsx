import { useEffect, useState } from 'react';
import { reachFromHome } from '../../reach/columns/reach-measure.ts';
import { magnificationText, sentence } from '../../words/firmness.ts';
import { figure } from '../../words/numbers.ts';
import { bindingWords, cm3Text } from '../../words/reach.ts';
import { useJudgement } from '../pose-binding.ts';
import { useReach } from '../reach-binding.ts';
import { useUsable } from '../usable-binding.ts';
import { useBroken } from './use-broken.ts';

/** The verdict is read out once things have been at rest for this long [ms], not at every step of a drag. */
const REST = 1200;

/** The strip in a few sentences for screen readers, politely and only when it has settled. */
export function SpokenSummary() {
  const { independence } = useJudgement();
  const { value, stale } = useReach();
  const broken = useBroken();
  const reach =
    !value || stale
      ? ''
      : value.empty
        ? 'Nothing is reachable. '
        : `Reach ${cm3Text(reachFromHome(value))}, ${bindingWords(value.boundary)}. `;
  const firmness = `${sentence(independence.verdict.word)}, firmness ${figure(independence.firmness)}, magnification ${magnificationText(independence.magnification)}. `;
  const limits = broken.length === 0 ? 'No limits broken.' : `Broken: ${broken.join('; ')}.`;
  const usable = useUsable();
  const kept =
    usable.value && !usable.stale && usable.value.floors.length > 0
      ? `Usable under the floors: ${cm3Text(usable.value.usable)}. `
      : '';
  const words = reach + kept + firmness + limits;
  const [spoken, setSpoken] = useState('');
  useEffect(() => {
    const timer = setTimeout(() => setSpoken(words), REST);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <p className="spoken" role="status" aria-live="polite">
      {spoken}
    </p>
  );
}
