import { Group } from '../../ui/Group.tsx';
import { roundedText } from '../../words/numbers.ts';
import { DesignNumber } from '../DesignNumber.tsx';
import { useDesign } from '../design-binding.ts';
import { BarrelAndScrew } from './BarrelAndScrew.tsx';
import styles from './design.module.css';
import { LEG_SPECS } from './number-specs.ts';

/** Lengths and diameters of the six equal legs, and what actuator they ask for. */
export const LegsGroup = () => (
  <Group title="Legs" brief={<Brief />}>
    {LEG_SPECS.map((spec) => (
      <DesignNumber key={spec.name} spec={spec} />
    ))}
    <BarrelAndScrew />
    <DeadLength />
  </Group>
);

const Brief = () => useDesign(({ legs }) => `${roundedText(legs.min_mm, 1)} to ${roundedText(legs.max_mm, 1)} mm`);

/**
 * A plain telescoping actuator is its dead length plus its stroke when in, plus another stroke when out:
 * min = dead + stroke and max = dead + 2 stroke, so dead = 2 min - max.
 */
function DeadLength() {
  const shortest = useDesign(({ legs }) => legs.min_mm);
  const longest = useDesign(({ legs }) => legs.max_mm);
  const dead = 2 * shortest - longest;
  const stroke = longest - shortest;
  return (
    <p className={styles['readout']} title="Lengths are joint centre to joint centre.">
      Stroke <b>{roundedText(stroke, 1)} mm</b>.{' '}
      {dead > 0 ? (
        <>
          Fits an actuator with a dead length up to 2 × shortest − longest = <b>{roundedText(dead, 1)} mm</b>.
        </>
      ) : (
        <span className={styles['warning']}>
          ▲ The longest leg is twice the shortest or more: 2 × shortest − longest = {roundedText(dead, 1)} mm. A plain
          telescoping actuator cannot do this; it takes a multi-stage one.
        </span>
      )}
    </p>
  );
}
